package verify

import (
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"time"
)

// kept is an answer of the solver as it lies in a file.
type kept struct {
	Seconds float64 `json:"seconds"`
	Answer  []byte  `json:"answer"` // gzip of what it printed
}

// solved returns what the solver prints for a deck and how long it took. keep
// is a directory of earlier answers, "" for none: the name of a file there is
// the deck's own hash, so that an answer never goes with another deck.
func solved(ctx context.Context, deck []byte, keep string) ([]byte, time.Duration, error) {
	path := filepath.Join(keep, fmt.Sprintf("%x.json", sha256.Sum256(deck)))
	if keep != "" {
		if text, err := os.ReadFile(path); err == nil {
			return unpack(text)
		}
	}
	t := time.Now()
	dat, err := runSolver(ctx, deck)
	if err != nil {
		return nil, 0, err
	}
	took := time.Since(t)
	if keep != "" {
		err = pack(path, dat, took)
	}
	return dat, took, err
}

// runSolver runs ccx on a deck in a directory of its own. It takes two threads
// unless OMP_NUM_THREADS says otherwise.
func runSolver(ctx context.Context, deck []byte) ([]byte, error) {
	dir, err := os.MkdirTemp("", "solid")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	if err := os.WriteFile(filepath.Join(dir, "panel.inp"), deck, 0o600); err != nil {
		return nil, err
	}
	run := exec.CommandContext(ctx, "ccx", "panel")
	run.Dir = dir
	run.Env = os.Environ()
	if os.Getenv("OMP_NUM_THREADS") == "" {
		run.Env = append(run.Env, "OMP_NUM_THREADS=2")
	}
	if out, err := run.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("run ccx: %w: %s", err, out[max(0, len(out)-600):])
	}
	return os.ReadFile(filepath.Join(dir, "panel.dat"))
}

func pack(path string, dat []byte, took time.Duration) error {
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	if _, err := z.Write(dat); err != nil {
		return err
	}
	if err := z.Close(); err != nil {
		return err
	}
	text, err := json.Marshal(kept{took.Seconds(), b.Bytes()})
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, text, 0o644)
}

func unpack(text []byte) ([]byte, time.Duration, error) {
	var k kept
	if err := json.Unmarshal(text, &k); err != nil {
		return nil, 0, fmt.Errorf("read a kept answer: %w", err)
	}
	z, err := gzip.NewReader(bytes.NewReader(k.Answer))
	if err != nil {
		return nil, 0, fmt.Errorf("read a kept answer: %w", err)
	}
	var b bytes.Buffer
	if _, err := b.ReadFrom(z); err != nil {
		return nil, 0, fmt.Errorf("read a kept answer: %w", err)
	}
	return b.Bytes(), time.Duration(k.Seconds * float64(time.Second)), nil
}
