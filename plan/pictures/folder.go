package pictures

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"unicode"

	"eavelight/plan"
	"eavelight/plan/say"
)

// Longest is how many pixels the longest side of a copy has at most: enough to tell on a screen how a scene is to look.
const Longest = 1200

// quality of the copies; at this one no edges are seen around letters and roof lines.
const quality = 85

// Folder is the name of the folder for the pictures of a plan, beside its file. It is one that every system takes, and a plan may
// name.
func Folder(planPath string) string {
	name := filepath.Base(planPath)
	return plain(strings.TrimSuffix(name, filepath.Ext(name)), "plan") + "-pictures"
}

// plain keeps of a name what every system takes; what is left of none is called otherwise.
func plain(name, otherwise string) string {
	const most = 60
	var out []rune
	for _, r := range strings.ToValidUTF8(name, "-") {
		if r < ' ' || !unicode.IsPrint(r) || strings.ContainsRune(`<>:"/\|?*`, r) {
			r = '-'
		}
		if len(out) < most {
			out = append(out, r)
		}
	}
	if name = strings.Trim(string(out), ". "); name == "" {
		return otherwise
	}
	return name
}

// Add makes a small copy of a picture in the folder beside the plan, and returns what the plan is to know of it. A picture whose
// copy is there already is not copied again.
func Add(ctx context.Context, planPath, from string) (plan.Picture, error) {
	img, err := Read(ctx, from, Longest)
	if err != nil {
		return plan.Picture{}, err
	}
	var data bytes.Buffer
	if err := jpeg.Encode(&data, img, &jpeg.Options{Quality: quality}); err != nil {
		return plan.Picture{}, err
	}
	name, folder := filepath.Base(from), Folder(planPath)
	kept, err := keep(filepath.Join(filepath.Dir(planPath), folder), plain(strings.TrimSuffix(name, filepath.Ext(name)), "picture"), data.Bytes())
	if err != nil {
		return plan.Picture{}, say.Error("The copy of %s can't be written into %s (%v)", name, folder, reason(err))
	}
	sum := sha256.Sum256(data.Bytes())
	return plan.Picture{File: path.Join(folder, kept), SHA256: hex.EncodeToString(sum[:])}, nil
}

// keep writes a copy under a name that is free, and returns it.
func keep(folder, stem string, data []byte) (string, error) {
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", err
	}
	const most = 10_000
	for n := 1; n <= most; n++ {
		name := stem + ".jpg"
		if n > 1 {
			name = fmt.Sprintf("%s-%d.jpg", stem, n)
		}
		at := filepath.Join(folder, name)
		err := writeNew(at, bytes.NewReader(data))
		switch {
		case err == nil:
			return name, nil
		case !errors.Is(err, fs.ErrExist):
			return "", err
		case holds(at, data):
			return name, nil
		}
	}
	return "", fs.ErrExist
}

// writeNew writes a file that is not there yet, whole or not at all.
func writeNew(at string, data io.Reader) error {
	f, err := os.OpenFile(at, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(f, data)
	for _, done := range []func() error{f.Sync, f.Close} {
		if failed := done(); err == nil {
			err = failed
		}
	}
	if err != nil {
		os.Remove(at)
	}
	return err
}

// holds reports whether a file is just what some data are.
func holds(at string, data []byte) bool {
	info, err := os.Stat(at)
	if err != nil || !info.Mode().IsRegular() || info.Size() != int64(len(data)) {
		return false
	}
	there, err := os.ReadFile(at)
	return err == nil && bytes.Equal(there, data)
}

// Look reads a picture of a plan from the folder of the plan. changed says that its file is not what was added.
func Look(ctx context.Context, dir string, q plan.Picture, longest int) (img *image.RGBA, changed bool, err error) {
	at := filepath.Join(dir, filepath.FromSlash(q.File))
	if img, err = Read(ctx, at, longest); err != nil || q.SHA256 == "" {
		return img, false, err
	}
	sum, err := hash(ctx, at)
	return img, err == nil && !strings.EqualFold(sum, q.SHA256), err
}

func hash(ctx context.Context, at string) (string, error) {
	f, err := open(ctx, at)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, struct{ io.Reader }{f}); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// Bring copies the pictures of a plan from one folder of a plan to another, as when it is saved elsewhere. What can't be brought
// comes as one error for each; nothing is written over.
func Bring(ctx context.Context, p *plan.Plan, from, to string) error {
	var left []error
	seen := map[string]bool{}
	for _, s := range p.Scenes {
		for _, q := range s.Pictures {
			if !seen[q.File] {
				seen[q.File] = true
				left = append(left, bring(ctx, filepath.FromSlash(q.File), from, to))
			}
		}
	}
	return errors.Join(left...)
}

func bring(ctx context.Context, file, from, to string) error {
	src, err := open(ctx, filepath.Join(from, file))
	if err != nil {
		return err
	}
	defer src.Close()
	at := filepath.Join(to, file)
	if err := os.MkdirAll(filepath.Dir(at), 0o700); err != nil {
		return say.Error("%s can't be copied to %s (%v)", file, to, reason(err))
	}
	err = writeNew(at, struct{ io.Reader }{src})
	switch {
	case errors.Is(err, fs.ErrExist) && same(ctx, src.Name(), at):
		return nil
	case errors.Is(err, fs.ErrExist):
		return say.Error("%s was not copied: another file of that name is in %s already", file, to)
	case err != nil:
		return say.Error("%s can't be copied to %s (%v)", file, to, reason(err))
	}
	return nil
}

// same reports whether two files hold the same.
func same(ctx context.Context, a, b string) bool {
	x, err := hash(ctx, a)
	if err != nil {
		return false
	}
	y, err := hash(ctx, b)
	return err == nil && x == y
}
