package people

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"

	"eavelight/plan"
	"eavelight/plan/say"
)

// Doubts are the releases that say they are signed and whose evidence does not hold, by their id, each with why. Paths point to
// the evidence in the plan.
type Doubts map[plan.ID]plan.Problem

// maxScan is how large a scan may be, in bytes. More is no scan of a paper, and would take long to read.
const maxScan = 1 << 30

// Stale are the doubts about signatures alone: those made under another text than the release has now.
func Stale(p *plan.Plan, d plan.Date) Doubts {
	out := Doubts{}
	for i, r := range p.Releases {
		if r.Status == plan.Signed && !Matches(p, r, d) {
			out[r.ID] = plan.Problem{Code: plan.TextChanged, Level: plan.Warning, Path: fmt.Sprintf("releases[%d].signature", i)}
		}
	}
	return out
}

// Evidence adds to Stale what Scans finds.
func Evidence(ctx context.Context, dir string, p *plan.Plan, d plan.Date) (Doubts, error) {
	out, err := Scans(ctx, dir, p)
	if err != nil {
		return nil, err
	}
	maps.Copy(out, Stale(p, d))
	return out, nil
}

// Scans are the doubts about scans alone, whose files it reads from dir, the folder of the plan. It takes as long as they are
// large; when the context ends, it returns the context's error.
func Scans(ctx context.Context, dir string, p *plan.Plan) (Doubts, error) {
	out := Doubts{}
	for i, r := range p.Releases {
		if r.Status != plan.Signed || r.Scan == nil {
			continue
		}
		problem, ok := CheckScan(ctx, dir, *r.Scan)
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if !ok {
			problem.Path = fmt.Sprintf("releases[%d].scan", i)
			out[r.ID] = problem
		}
	}
	return out, nil
}

// NewScan is the evidence of a file: its path as seen from dir, the folder of the plan, where it lies below it, and its
// SHA-256. What CheckScan would refuse comes as an error in the same words.
func NewScan(ctx context.Context, dir, path string) (plan.Scan, error) {
	scan := plan.Scan{Path: path}
	if below, err := filepath.Rel(dir, path); err == nil && filepath.IsLocal(below) && below != "." {
		scan.Path = below
	}
	scan.Path = filepath.ToSlash(scan.Path)
	sum, problem, ok := hashScan(ctx, dir, scan)
	if ok && sum == Digest("") {
		problem, ok = scanProblem(plan.ScanEmpty, scan.Path), false
	}
	if !ok {
		return plan.Scan{}, refusal{problem}
	}
	scan.SHA256 = sum
	return scan, nil
}

// refusal is a problem as an error.
type refusal struct{ plan.Problem }

func (r refusal) Error() string { return r.String() }

// CheckScan looks whether a scan's file is still there, below dir where its path is not from the root, and what it was. Where
// it is not, it says why.
func CheckScan(ctx context.Context, dir string, scan plan.Scan) (why plan.Problem, ok bool) {
	sum, why, ok := hashScan(ctx, dir, scan)
	if ok && !strings.EqualFold(sum, scan.SHA256) {
		return scanProblem(plan.ScanChanged, scan.Path), false
	}
	return why, ok
}

func scanProblem(code plan.Code, facts ...any) plan.Problem {
	return plan.Problem{Code: code, Level: plan.Warning, Facts: facts}
}

// hashScan reads the file of a scan. A link is followed.
func hashScan(ctx context.Context, dir string, scan plan.Scan) (sum string, why plan.Problem, ok bool) {
	path := filepath.FromSlash(scan.Path)
	if !filepath.IsAbs(path) {
		path = filepath.Join(dir, path)
	}
	info, err := os.Stat(path) // before opening: to open a pipe would wait for its other end
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "", scanProblem(plan.ScanMissing, scan.Path), false
	case err != nil:
		return "", scanProblem(plan.ScanUnreadable, scan.Path, reason(err)), false
	case info.IsDir():
		return "", scanProblem(plan.ScanNoFile, scan.Path, say.That("is|a folder")), false
	case !info.Mode().IsRegular():
		return "", scanProblem(plan.ScanNoFile, scan.Path, say.That("is|a device or a pipe")), false
	case info.Size() > maxScan:
		return "", scanProblem(plan.ScanTooLarge, scan.Path, maxScan>>30), false
	}
	sum, err = hash(ctx, path)
	if err != nil {
		return "", scanProblem(plan.ScanUnreadable, scan.Path, reason(err)), false
	}
	return sum, plan.Problem{}, true
}

// reason is what the system says, without the path, which the scan's own stands for.
func reason(err error) error {
	if of := (*fs.PathError)(nil); errors.As(err, &of) {
		return of.Err
	}
	return err
}

func hash(ctx context.Context, path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, io.LimitReader(heeding{ctx, f}, maxScan)); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// heeding stops reading when its context ends.
type heeding struct {
	context.Context
	io.Reader
}

func (h heeding) Read(p []byte) (int, error) {
	if err := h.Err(); err != nil {
		return 0, err
	}
	return h.Reader.Read(p)
}
