package engine

import (
	"fmt"
	"math"
	"time"
)

// log checks what is noted of the build. Nothing in it stops the computation:
// what cannot be read counts as not noted.
func (r *review) log() {
	if n := len(r.d.Log); n > maxListed {
		r.block("log-too-long", "log", "%d steps are noted; up to %d can be kept. Remove those that are there twice.", n, maxListed)
		return
	}
	for i, l := range r.d.Log {
		path := fmt.Sprintf("log[%d]", i)
		began, err1 := time.Parse(time.RFC3339, l.Began)
		ended, err2 := time.Parse(time.RFC3339, l.Ended)
		switch {
		case l.Began != "" && err1 != nil || l.Ended != "" && err2 != nil:
			r.add(Advice, "log-time", path, "A time noted at the step “%s” cannot be read and counts as not noted. Note it anew.", l.Step)
		case err1 == nil && err2 == nil && ended.Before(began):
			r.add(Advice, "log-order", path, "The step “%s” is noted as over before it began. Note its times anew.", l.Step)
		}
		if l.Measured && !(math.Abs(l.Celsius) <= 60) {
			r.add(Advice, "log-temperature", path, "The temperature noted at the step “%s” is outside of what glue is used at. Check the figure and its unit.", l.Step)
		}
	}
}
