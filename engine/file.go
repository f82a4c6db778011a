package engine

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"syscall"
)

// FormatVersion is the newest version of the design file this program knows.
// Older versions stay readable for ever.
const FormatVersion = 1

// maxFileSize is the largest design file that is read, in bytes. A design with
// every list full takes less than 1 MB (common practice, no source).
const maxFileSize = 8 << 20

// What a [FileError] may wrap.
var (
	ErrNewerFormat = errors.New("file of a newer format")
	ErrTooLarge    = errors.New("file too large")
)

// FileError says what is wrong with a design file, and where.
type FileError struct {
	Line, Column int    // from 1, the column in characters; 0 when it concerns the whole file
	Field        string // JSON path as in [Problem], "" outside any field
	Reason       string // for a person: what was found, what was expected
	Err          error  // ErrNewerFormat, ErrTooLarge or nil
}

// Error returns the place and the reason in one line.
func (e *FileError) Error() string {
	text := e.Reason
	if e.Field != "" {
		text = e.Field + ": " + text
	}
	if e.Line > 0 {
		text = fmt.Sprintf("line %d, column %d: %s", e.Line, e.Column, text)
	}
	return text
}

// Unwrap returns Err.
func (e *FileError) Unwrap() error { return e.Err }

func tooLarge() error {
	return &FileError{
		Reason: fmt.Sprintf("the file is larger than %d MB; no design is, so it must be something else", maxFileSize>>20),
		Err:    ErrTooLarge,
	}
}

// Read reads a design. It never takes in more than a design file may have.
func Read(r io.Reader) (Design, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxFileSize+1))
	if err != nil {
		return Design{}, fmt.Errorf("read design: %w", err)
	}
	return Decode(data)
}

// ReadFile reads the design file at path.
func ReadFile(path string) (Design, error) {
	f, err := os.Open(path)
	if err != nil {
		return Design{}, fmt.Errorf("open design: %w", err)
	}
	defer f.Close()
	d, err := Read(f)
	if err != nil {
		return Design{}, fmt.Errorf("%s: %w", filepath.Base(path), err)
	}
	return d, nil
}

// WriteFile saves the design at path. At every moment, even if the machine
// stops, path holds either the whole old file or the whole new one: the design
// is written to a temporary file beside it, synced and renamed. The file's
// permissions stay; a link is followed; a write-protected file is refused.
//
// An error means that the old file is still there, with one exception: when
// only the last step fails, syncing the folder, the new file is in place but
// may not outlive a power cut.
func WriteFile(path string, d Design) error {
	data, err := Encode(d)
	if err != nil {
		return err
	}
	return writeWhole(path, data, func(writeStep) error { return nil })
}

// writeStep is one step of saving a file.
type writeStep int

// The steps of saving in their order.
const (
	createStep writeStep = iota
	firstHalfStep
	secondHalfStep
	modeStep
	syncStep
	closeStep
	renameStep
	folderStep
	writeSteps // their number
)

// writeWhole writes data at path as [WriteFile] says. It calls before ahead of
// every step and takes an error from it for a failure of the step; tests use
// it to fail, or to be killed, there.
func writeWhole(path string, data []byte, before func(writeStep) error) (err error) {
	if target, err := filepath.EvalSymlinks(path); err == nil {
		path = target
	}
	old, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		old = nil
	case err != nil:
		return fmt.Errorf("save design: %w", err)
	case !old.Mode().IsRegular():
		return fmt.Errorf("save design: %s is not a file", path)
	case old.Mode().Perm()&0o200 == 0:
		return fmt.Errorf("save design: %s is write-protected: %w", path, fs.ErrPermission)
	}

	var f *os.File
	defer func() {
		if err != nil {
			err = fmt.Errorf("save design: %w", err)
		}
		if f != nil { // not yet renamed
			f.Close()
			os.Remove(f.Name())
		}
	}()
	half := len(data) / 2
	steps := [writeSteps]func() error{
		createStep:     func() (err error) { f, err = createBeside(path); return err },
		firstHalfStep:  func() error { _, err := f.Write(data[:half]); return err },
		secondHalfStep: func() error { _, err := f.Write(data[half:]); return err },
		modeStep: func() error {
			if old == nil {
				return nil
			}
			return f.Chmod(old.Mode().Perm())
		},
		syncStep:  func() error { return f.Sync() },
		closeStep: func() error { return f.Close() },
		renameStep: func() error {
			if err := os.Rename(f.Name(), path); err != nil {
				return err
			}
			f = nil
			return nil
		},
		folderStep: func() error { return syncFolder(filepath.Dir(path)) },
	}
	for i, step := range steps {
		if err := before(writeStep(i)); err != nil {
			return err
		}
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// createBeside creates a new file with a name of its own in path's folder,
// with the permissions any new file gets. The file's Name is its full path.
func createBeside(path string) (*os.File, error) {
	for tries := 0; ; tries++ {
		name := ".flatwright-" + strconv.FormatUint(rand.Uint64(), 36) + ".tmp"
		f, err := os.OpenFile(filepath.Join(filepath.Dir(path), name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if errors.Is(err, fs.ErrExist) && tries < 100 {
			continue
		}
		return f, err
	}
}

// syncFolder makes a rename in the folder last. Windows does that itself, and
// some file systems cannot be asked.
func syncFolder(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer f.Close()
	if err := f.Sync(); err != nil && !errors.Is(err, syscall.EINVAL) && !errors.Is(err, errors.ErrUnsupported) {
		return err
	}
	return nil
}
