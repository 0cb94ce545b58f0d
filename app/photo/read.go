package photo

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Picture is a decoded picture.
type Picture struct {
	Header
	Image image.Image
}

// Read reads the picture that a job names, which must lie in the folder of the
// job's file. It may be called off the window's goroutine; when ctx ends it
// returns with its error. Any other error is *Error.
func Read(ctx context.Context, jobFile, name string) (*Picture, error) {
	switch local := filepath.FromSlash(name); {
	case jobFile == "":
		return nil, &Error{File: name, What: "has no job file to lie beside", Cure: "save the job first, or pick the picture again"}
	case filepath.IsAbs(local):
		return nil, &Error{File: name, What: "lies outside the job's folder, so it is not opened by itself", Cure: "pick it again, or put it beside the job"}
	case !filepath.IsLocal(local):
		return nil, &Error{File: name, What: "leads out of the job's folder", Cure: "put the picture beside the job"}
	default:
		root, err := os.OpenRoot(filepath.Dir(jobFile))
		if err != nil {
			return nil, fileError(name, err)
		}
		p, err := read(ctx, name, local, root.Stat, root.Open)
		return p, errors.Join(err, root.Close())
	}
}

// ReadPicked reads a picture that the person has picked in a dialog, wherever
// it is. Errors are as with Read.
func ReadPicked(ctx context.Context, path string) (*Picture, error) {
	return read(ctx, path, path, os.Stat, os.Open)
}

// NameFor is what a job keeps of a picked picture: its path within the job's
// folder, with slashes, or else the whole path.
func NameFor(jobFile, picked string) string {
	abs, err := filepath.Abs(picked)
	if err != nil {
		return filepath.ToSlash(picked)
	}
	folder, err := filepath.Abs(filepath.Dir(jobFile))
	if err != nil || jobFile == "" {
		return filepath.ToSlash(abs)
	}
	if rel, err := filepath.Rel(folder, abs); err == nil && filepath.IsLocal(rel) {
		return filepath.ToSlash(rel)
	}
	return filepath.ToSlash(abs)
}

func read(ctx context.Context, name, path string, stat func(string) (fs.FileInfo, error), open func(string) (*os.File, error)) (*Picture, error) {
	info, err := stat(path) // before opening: a pipe would wait for its writer
	switch {
	case err != nil:
		return nil, fileError(name, err)
	case !info.Mode().IsRegular():
		return nil, &Error{File: name, What: "is not an ordinary file", Cure: "choose a picture"}
	}
	f, err := open(path)
	if err != nil {
		return nil, fileError(name, err)
	}
	data, err := io.ReadAll(io.LimitReader(reader{ctx, f}, MaxFile+1))
	if err = errors.Join(err, f.Close()); err != nil {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		return nil, fileError(name, err)
	}
	return decode(ctx, name, data)
}

func decode(ctx context.Context, name string, data []byte) (*Picture, error) {
	h, err := Check(data)
	if err != nil {
		var e *Error
		if errors.As(err, &e) {
			e.File = name
		}
		return nil, err
	}
	img, _, err := image.Decode(reader{ctx, bytes.NewReader(data)})
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil:
		return nil, &Error{File: name, What: fmt.Sprintf("is damaged (%v)", err), Cure: "save it anew, or choose another", Err: err}
	}
	return &Picture{h, img}, nil
}

func fileError(name string, err error) error {
	e := &Error{File: name, What: fmt.Sprintf("cannot be read (%v)", cause(err)), Cure: "the job keeps its name; look at the file, or pick another", Err: err}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		e.What, e.Cure = "is not there", "the job keeps its name; put the picture back, or pick another"
	case errors.Is(err, fs.ErrPermission):
		e.What = "may not be read"
	}
	return e
}

func cause(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}

// reader ends when its context does: the decoders read as they go along.
type reader struct {
	ctx context.Context
	r   io.Reader
}

// readAtOnce bounds how much is decoded before the context is asked again.
const readAtOnce = 64 << 10

func (r reader) Read(p []byte) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	return r.r.Read(p[:min(len(p), readAtOnce)])
}

// Reduced returns a copy whose longer side is at most so many pixels, each the
// mean of those it stands for, and how many those are on a side. A picture
// that is small enough is only converted. It ends with ctx.
func Reduced(ctx context.Context, img image.Image, longest int) (*image.RGBA, int, error) {
	b := img.Bounds()
	step := max(1, (max(b.Dx(), b.Dy())+longest-1)/longest)
	out := image.NewRGBA(image.Rect(0, 0, (b.Dx()+step-1)/step, (b.Dy()+step-1)/step))
	for y := range out.Rect.Dy() {
		if err := ctx.Err(); err != nil {
			return nil, 0, err
		}
		for x := range out.Rect.Dx() {
			mean(img, image.Rect(x*step, y*step, (x+1)*step, (y+1)*step).Add(b.Min).Intersect(b), out.Pix[out.PixOffset(x, y):])
		}
	}
	return out, step, nil
}

func mean(img image.Image, of image.Rectangle, to []uint8) {
	var sum [4]uint64
	for y := of.Min.Y; y < of.Max.Y; y++ {
		for x := of.Min.X; x < of.Max.X; x++ {
			r, g, b, a := img.At(x, y).RGBA()
			sum[0], sum[1], sum[2], sum[3] = sum[0]+uint64(r), sum[1]+uint64(g), sum[2]+uint64(b), sum[3]+uint64(a)
		}
	}
	n := uint64(of.Dx() * of.Dy())
	for i, s := range sum {
		to[i] = uint8((s/n + 128) / 257)
	}
}
