package app

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"flatwright/engine/length"
)

// maxRecent is how many recent files are remembered.
const maxRecent = 8

// Settings are what the program remembers from one day to the next.
type Settings struct {
	Appearance appearance    `json:"appearance,omitempty"`
	Lengths    length.Format `json:"lengths"`
	Paper      string        `json:"paper,omitempty"`  // of the packet: "letter" or "a4"
	Folder     string        `json:"folder,omitempty"` // where a file was last opened or saved
	Recent     []string      `json:"recent,omitempty"` // newest first
	Shop       ownShop       `json:"shop,omitzero"`
}

// store keeps the settings, the autosaved designs and the crash reports in one
// folder of the person's configuration. A store with no folder remembers
// nothing past the end of the program.
type store struct {
	dir string
}

// openStore returns the store in the person's configuration folder.
func openStore() store {
	config, err := os.UserConfigDir()
	if err != nil {
		return store{}
	}
	return store{dir: filepath.Join(config, "flatwright")}
}

func (s store) settingsFile() string { return filepath.Join(s.dir, "settings.json") }

// settings reads what is remembered. A missing or damaged file is the same as
// none: the settings are a convenience, and the next change writes them anew.
func (s store) settings() Settings {
	var found Settings
	data, err := os.ReadFile(s.settingsFile())
	if s.dir == "" || err != nil || json.Unmarshal(data, &found) != nil {
		return Settings{Appearance: followSystem}
	}
	found.Recent = found.Recent[:min(len(found.Recent), maxRecent)]
	return found
}

// keep remembers the settings.
func (s store) keep(settings Settings) error {
	data, err := json.MarshalIndent(settings, "", "\t")
	if err != nil {
		return fmt.Errorf("keep the settings: %w", err)
	}
	return s.write(s.settingsFile(), append(data, '\n'))
}

// write puts data at path whole or not at all: into a temporary file beside
// it, synced and renamed.
func (s store) write(path string, data []byte) error {
	if s.dir == "" {
		return nil
	}
	if err := os.MkdirAll(s.dir, 0o700); err != nil {
		return fmt.Errorf("make the folder for settings: %w", err)
	}
	return replaceFile(path, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

// replaceFile puts what fill writes at path, whole or not at all.
func replaceFile(path string, fill func(io.Writer) error) (err error) {
	temp, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*")
	if err != nil {
		return fmt.Errorf("write %s: %w", filepath.Base(path), err)
	}
	defer func() {
		if err != nil {
			temp.Close()
			os.Remove(temp.Name())
			err = fmt.Errorf("write %s: %w", filepath.Base(path), err)
		}
	}()
	if err := fill(temp); err != nil {
		return err
	}
	if err := temp.Sync(); err != nil {
		return err
	}
	if err := temp.Close(); err != nil {
		return err
	}
	if err := os.Chmod(temp.Name(), 0o644); err != nil {
		return err
	}
	return os.Rename(temp.Name(), path)
}

// remember puts path on top of the recent files.
func (s *Settings) remember(path string) {
	s.forget(path)
	s.Recent = slices.Insert(s.Recent, 0, path)
	s.Recent = s.Recent[:min(len(s.Recent), maxRecent)]
	s.Folder = filepath.Dir(path)
}

// forget takes path off the recent files.
func (s *Settings) forget(path string) {
	s.Recent = slices.DeleteFunc(slices.Clone(s.Recent), func(p string) bool { return p == path })
}

// crash writes a report of a fault of the program and returns its path, "" if
// it could not be written.
func (s store) crash(value any, stack []byte, at time.Time) string {
	path := filepath.Join(s.dir, "crash-"+at.Format("20060102-150405")+".txt")
	report := fmt.Sprintf("Flatwright met a fault of its own at %s\n\n%v\n\n%s", at.Format(time.RFC3339), value, stack)
	if s.dir == "" || s.write(path, []byte(report)) != nil {
		return ""
	}
	return path
}

// removed reports whether the file at path is gone, taking it away if it is
// there.
func removed(path string) error {
	err := os.Remove(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}
