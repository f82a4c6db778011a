package app

import (
	"fmt"
	"net"
	"strconv"
	"strings"
	"time"
)

// NoDisplay returns a sentence if there is no display to open a window on, ""
// if there is one. goos is the system, display the value of DISPLAY.
func NoDisplay(goos, display string) string {
	switch goos {
	case "windows", "darwin", "ios", "android", "js":
		return ""
	}
	hint := " The commands report and packet need none; flatwright -help lists them."
	if display == "" {
		return "There is no display to open the window on: DISPLAY is empty." + hint
	}
	network, address, ok := displayAddress(display)
	if !ok {
		return fmt.Sprintf("DISPLAY is %q, which names no display.", display) + hint
	}
	if !answers(network, address) && (network != "unix" || !answers(network, "@"+address)) {
		return fmt.Sprintf("No display answers at DISPLAY %q.", display) + hint
	}
	return ""
}

// displayAddress returns where the X server of a DISPLAY value listens:
// host:number.screen, the host empty for this machine (X(7), from memory).
func displayAddress(display string) (network, address string, ok bool) {
	colon := strings.LastIndex(display, ":")
	if colon < 0 {
		return "", "", false
	}
	host := display[:colon]
	number, _, _ := strings.Cut(display[colon+1:], ".")
	n, err := strconv.Atoi(number)
	if err != nil || n < 0 || n > 65535-6000 {
		return "", "", false
	}
	if strings.HasPrefix(host, "/") {
		return "unix", display, true
	}
	if host == "" || host == "unix" {
		return "unix", "/tmp/.X11-unix/X" + number, true
	}
	return "tcp", net.JoinHostPort(host, strconv.Itoa(6000+n)), true
}

func answers(network, address string) bool {
	connection, err := net.DialTimeout(network, address, 3*time.Second)
	if err != nil {
		return false
	}
	connection.Close()
	return true
}
