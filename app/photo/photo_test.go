package photo

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"armscribe/app/job"
	"armscribe/app/units"
)

func encoded(t testing.TB, format string, w, h int) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range img.Pix {
		img.Pix[i] = uint8(i*7) | 1
	}
	var b bytes.Buffer
	var err error
	if format == "png" {
		err = png.Encode(&b, img)
	} else {
		err = jpeg.Encode(&b, img, nil)
	}
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// pngOfSize is a PNG file that claims a size, and holds nothing of it.
func pngOfSize(w, h uint32, depth, kind byte) []byte {
	head := []byte("IHDR")
	head = binary.BigEndian.AppendUint32(head, w)
	head = binary.BigEndian.AppendUint32(head, h)
	head = append(head, depth, kind, 0, 0, 0)
	data := []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d")
	data = append(data, head...)
	return binary.BigEndian.AppendUint32(data, crc32.ChecksumIEEE(head))
}

func interlaced(data []byte) []byte {
	data[pngInterlace] = 1
	return binary.BigEndian.AppendUint32(data[:29], crc32.ChecksumIEEE(data[12:29]))
}

// jpegOfSize likewise; factors are those of each component.
func jpegOfSize(w, h uint16, marker byte, factors ...byte) []byte {
	data := []byte{0xff, 0xd8, 0xff, marker, 0, byte(8 + 3*len(factors)), 8}
	data = binary.BigEndian.AppendUint16(data, h)
	data = binary.BigEndian.AppendUint16(data, w)
	data = append(data, byte(len(factors)))
	for i, f := range factors {
		data = append(data, byte(i+1), f, 0)
	}
	return append(data, 0xff, 0xda, 0, 2, 0, 0)
}

func put(t *testing.T, path string, data []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
}

func TestReadsWhatLiesBesideTheJob(t *testing.T) {
	dir := t.TempDir()
	jobFile := filepath.Join(dir, "car.armscribe.yaml")
	for _, format := range []string{"png", "jpeg"} {
		name := "photos/left." + format
		put(t, filepath.Join(dir, filepath.FromSlash(name)), encoded(t, format, 37, 23))
		p, err := Read(context.Background(), jobFile, name)
		if err != nil || p.Format != format || p.Width != 37 || p.Height != 23 || p.Image.Bounds().Dx() != 37 {
			t.Errorf("%s: %+v, %v", format, p, err)
		}
	}
}

// A job from anybody opens no file outside its folder.
func TestRefusesToLeaveTheFolder(t *testing.T) {
	dir := t.TempDir()
	jobFile := filepath.Join(dir, "jobs", "car.armscribe.yaml")
	good := encoded(t, "png", 5, 3)
	outside := filepath.Join(dir, "secret.png")
	put(t, outside, good)
	put(t, filepath.Join(dir, "jobs", "notes.txt"), []byte("no picture\n"))
	put(t, filepath.Join(dir, "jobs", "cut.png"), good[:len(good)-20])
	for link, to := range map[string]string{"link.png": outside, "folder": dir, "inside.png": "cut.png"} {
		if err := os.Symlink(to, filepath.Join(dir, "jobs", link)); err != nil {
			t.Fatal(err)
		}
	}
	for name, want := range map[string]string{
		"../secret.png": "leads out of the job's folder", "a/../../secret.png": "leads out of the job's folder", "..": "leads out of the job's folder",
		outside: "lies outside the job's folder", "link.png": "cannot be read (path escapes from parent)", "folder/secret.png": "cannot be read (path escapes from parent)",
		"gone.png": "is not there", ".": "is not an ordinary file", "notes.txt": "is no PNG or JPEG picture",
		"cut.png": "is damaged", "inside.png": "is damaged", "": "leads out of the job's folder",
	} {
		p, err := Read(context.Background(), jobFile, name)
		var e *Error
		if p != nil || !errors.As(err, &e) || !strings.HasPrefix(err.Error(), name+": "+want) || strings.Count(err.Error(), "\n") > 0 || e.Cure == "" {
			t.Errorf("%q: %v, want %q", name, err, want)
		}
	}
	if _, err := Read(context.Background(), "", "a.png"); err == nil || !strings.Contains(err.Error(), "save the job first") {
		t.Errorf("of a job without a file: %v", err)
	}
	if p, err := ReadPicked(context.Background(), outside); err != nil || p.Width != 5 {
		t.Errorf("picked: %v", err)
	}
}

func TestNameFor(t *testing.T) {
	dir := t.TempDir()
	jobFile := filepath.Join(dir, "car.armscribe.yaml")
	for picked, want := range map[string]string{
		filepath.Join(dir, "a.jpg"): "a.jpg", filepath.Join(dir, "photos", "a.jpg"): "photos/a.jpg",
		filepath.Join(filepath.Dir(dir), "a.jpg"): filepath.ToSlash(filepath.Join(filepath.Dir(dir), "a.jpg")),
	} {
		if got := NameFor(jobFile, picked); got != want {
			t.Errorf("%s becomes %q, want %q", picked, got, want)
		}
	}
	if got := NameFor("", filepath.Join(dir, "a.jpg")); got != filepath.ToSlash(filepath.Join(dir, "a.jpg")) {
		t.Errorf("of a job without a file %q", got)
	}
}

func TestCheckRefusesBeforeDecoding(t *testing.T) {
	for _, c := range []struct {
		name string
		data []byte
		want string // empty: taken
	}{
		{"60000 x 60000", pngOfSize(60000, 60000, 8, 2), "is 60000 x 60000 pixels, more than 16384 on a side"},
		{"a long strip", pngOfSize(16385, 2, 8, 2), "is 16385 x 2 pixels"},
		{"largest side", pngOfSize(16384, 3906, 8, 2), ""},
		{"too many pixels", pngOfSize(16384, 3907, 8, 2), "has 64 megapixels, more than 64"},
		{"sixteen bits", pngOfSize(7000, 7000, 16, 6), "takes 373 MiB to decode"},
		{"grey sixteen bits", pngOfSize(7000, 7000, 16, 0), ""},
		{"in passes", interlaced(pngOfSize(7000, 7000, 8, 6)), "takes 280 MiB to decode"},
		{"not in passes", pngOfSize(7000, 7000, 8, 6), ""},
		{"jpeg", jpegOfSize(8000, 8000, 0xc0, 0x11, 0x11, 0x11), ""},
		{"usual jpeg", jpegOfSize(8000, 8000, 0xc0, 0x22, 0x11, 0x11), ""},
		{"progressive", jpegOfSize(6000, 4000, 0xc2, 0x22, 0x11, 0x11), ""},
		{"large progressive", jpegOfSize(8000, 8000, 0xc2, 0x22, 0x11, 0x11), "takes 457 MiB to decode"},
		{"large progressive, full colour", jpegOfSize(6000, 4000, 0xc2, 0x11, 0x11, 0x11), "takes 343 MiB to decode"},
		{"four colours", jpegOfSize(8000, 5000, 0xc0, 0x11, 0x11, 0x11, 0x11), "takes 305 MiB to decode"},
		{"nothing", nil, "is no PNG or JPEG picture"},
		{"too large a file", make([]byte, MaxFile+1), "is larger than 32 MiB"},
		{"gif", []byte("GIF89a\x05\x00\x05\x00\x00\x00\x00"), "is no PNG or JPEG picture"},
	} {
		_, err := Check(c.data)
		if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
}

// memoryBound is what a hostile picture may take before it is refused, in
// bytes allocated altogether.
const memoryBound = 300 << 20

func TestHostilePicturesTakeLittleMemory(t *testing.T) {
	dir := t.TempDir()
	jobFile := filepath.Join(dir, "a.armscribe.yaml")
	// A picture of the largest kind taken is cut off behind its header: its
	// pixels are made room for, and no more.
	for name, data := range map[string][]byte{
		"huge.png": pngOfSize(60000, 60000, 8, 2), "bomb.png": pngOfSize(1<<31-1, 1<<31-1, 16, 6), "cut.png": pngOfSize(8000, 8000, 8, 6),
		"cut.jpg": jpegOfSize(8000, 8000, 0xc0, 0x11, 0x11, 0x11), "big.png": make([]byte, MaxFile+100),
	} {
		put(t, filepath.Join(dir, name), data)
		var before, after runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		_, err := Read(context.Background(), jobFile, name)
		runtime.ReadMemStats(&after)
		if err == nil || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v", name, err)
		}
		if took := after.TotalAlloc - before.TotalAlloc; took > memoryBound {
			t.Errorf("%s takes %d MiB", name, took>>20)
		}
	}
}

func TestCancelEndsReading(t *testing.T) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, "a.png"), encoded(t, "png", 37, 23))
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Read(ctx, filepath.Join(dir, "a.armscribe.yaml"), "a.png"); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
	data := encoded(t, "png", 900, 700)
	ctx, cancel = context.WithCancel(context.Background())
	if _, err := decode(&endsLater{ctx, cancel, 2}, "a.png", data); !errors.Is(err, context.Canceled) {
		t.Errorf("while decoding: %v", err)
	}
	if _, _, err := Reduced(ctx, image.NewGray(image.Rect(0, 0, 9, 9)), 5); !errors.Is(err, context.Canceled) {
		t.Errorf("while reducing: %v", err)
	}
}

// endsLater is cancelled when it is asked for the n-th time.
type endsLater struct {
	context.Context
	cancel context.CancelFunc
	n      int
}

func (e *endsLater) Err() error {
	if e.n--; e.n <= 0 {
		e.cancel()
	}
	return e.Context.Err()
}

func TestReduced(t *testing.T) {
	img := image.NewNRGBA(image.Rect(3, 5, 3+7, 5+4))
	for x := range 7 {
		for y := range 4 {
			img.SetNRGBA(3+x, 5+y, color.NRGBA{uint8(20 * x), uint8(50 * y), 9, 255})
		}
	}
	out, step, err := Reduced(context.Background(), img, 4)
	if err != nil || step != 2 || out.Bounds() != image.Rect(0, 0, 4, 2) {
		t.Fatalf("%v, step %d, %v", out.Bounds(), step, err)
	}
	// The mean of 40 and 60, of 100 and 150; the last column stands for one.
	if got, want := out.RGBAAt(1, 1), (color.RGBA{50, 125, 9, 255}); got != want {
		t.Errorf("%v, want %v", got, want)
	}
	if got, want := out.RGBAAt(3, 0), (color.RGBA{120, 25, 9, 255}); got != want {
		t.Errorf("%v, want %v", got, want)
	}
}

func TestPlacement(t *testing.T) {
	p := job.Photo{
		Calibration: job.Calibration{Given: true, A: job.Pixel{X: 100, Y: 200}, B: job.Pixel{X: 400, Y: 600}, Distance: units.Length{MM: 250}}, // half a mm a pixel
		Level:       job.Level{Given: true, A: job.Pixel{X: 100, Y: 900}, B: job.Pixel{X: 100 + 300, Y: 900 - 400}},                            // climbs to the right
		Anchor:      job.Anchor{Given: true, Pixel: job.Pixel{X: 700, Y: 300}, Y: units.Length{MM: 762}, Z: units.Length{MM: 315}},
	}
	pl, complete := PlacementOf(&p, Held{})
	if !complete || math.Abs(pl.Scale-0.5) > 1e-15 {
		t.Fatalf("%+v, complete %v", pl, complete)
	}
	want := func(px job.Pixel, y, z float64) {
		t.Helper()
		gy, gz := pl.OnCar(px)
		if math.Hypot(gy-y, gz-z) > 1e-9 {
			t.Errorf("%v stands at %g, %g; want %g, %g", px, gy, gz, y, z)
		}
		if back := pl.InPicture(gy, gz); math.Hypot(back.X-px.X, back.Y-px.Y) > 1e-9 {
			t.Errorf("%v comes back as %v", px, back)
		}
	}
	want(job.Pixel{X: 700, Y: 300}, 762, 315)
	want(job.Pixel{X: 730, Y: 260}, 762+25, 315) // along the level, 50 pixels
	want(job.Pixel{X: 660, Y: 270}, 762, 315+25) // square to it, upward
	p.Mirrored = true
	p.Level.A, p.Level.B = p.Level.B, p.Level.A // inboard is now on the right
	pl, _ = PlacementOf(&p, Held{})
	want(job.Pixel{X: 730, Y: 260}, 762-25, 315)
	want(job.Pixel{X: 660, Y: 270}, 762, 315+25)

	pl, complete = PlacementOf(&job.Photo{File: "a.png"}, Held{})
	if complete {
		t.Error("complete without a scale")
	}
	want(job.Pixel{X: 12, Y: 7}, 12, -7)
}

// A pinhole drawn out: the lens 3 m before the plane, a pivot 200 mm behind it
// and 300 mm from the middle is seen on the plane at 300*3000/3200.
func TestPerspective(t *testing.T) {
	got, ok := PerspectiveError(3000, 300, 200)
	if want := 300 - 300*3000.0/3200; !ok || math.Abs(got-want) > 1e-12 {
		t.Errorf("%g, want %g", got, want)
	}
	if near, _ := PerspectiveError(3000, -300, -200); !(near > got) {
		t.Errorf("before the plane %g, behind it %g", near, got)
	}
	if d := DistanceFor(got, 300, 200); math.Abs(d-3000) > 1e-9 {
		t.Errorf("to see it %g off stand %g back", got, d)
	}
	for _, d := range []float64{0, -5, math.NaN()} {
		if _, ok := PerspectiveError(d, 300, 200); ok {
			t.Errorf("from %g", d)
		}
	}
	if _, ok := PerspectiveError(150, 300, -200); ok {
		t.Error("a point behind the lens")
	}
}

// FuzzImageHeader: whatever is taken keeps the limits, and nothing panics.
func FuzzImageHeader(f *testing.F) {
	for _, data := range [][]byte{encoded(f, "png", 5, 3), encoded(f, "jpeg", 5, 3), pngOfSize(60000, 60000, 8, 2),
		pngOfSize(9, 7, 16, 6), jpegOfSize(40, 30, 0xc2, 0x22, 0x11, 0x11), jpegOfSize(40, 30, 0xc0, 0x11)} {
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		h, err := Check(data)
		if err != nil {
			if err.Error() == "" {
				t.Fatal("an error without words")
			}
			return
		}
		if h.Width < 1 || h.Height < 1 || h.Width > MaxSide || h.Height > MaxSide || h.Width*h.Height > MaxPixels || h.Memory > MaxMemory || h.Memory < 1 {
			t.Fatalf("taken: %+v", h)
		}
		const small = 1 << 16 // pixels that a fuzz run can decode by the thousand
		if h.Width*h.Height <= small {
			if p, err := decode(context.Background(), "fuzz", data); err == nil && (p.Image.Bounds().Dx() != h.Width || p.Image.Bounds().Dy() != h.Height) {
				t.Fatalf("%+v decodes to %v", h, p.Image.Bounds())
			}
		}
	})
}

// A ruler held before the wheel covers more pixels than it would on the wheel's plane: a
// pinhole so far away says how many. Where nobody has measured how far, half of that is
// doubtful.
func TestAScaleBeforeTheWheel(t *testing.T) {
	const distance, ahead, length, focal = 2600.0, 340.0, 457.0, 4100.0
	p := job.Photo{File: "a.png", CameraDistance: job.Given(units.Length{MM: distance}), Calibration: job.Calibration{Given: true, A: job.Pixel{X: 700, Y: 512}, Within: 0.1,
		B: job.Pixel{X: 700 + focal*length/(distance-ahead), Y: 512}, Distance: units.Length{MM: length}, Ahead: job.Given(units.Length{MM: ahead})}}
	pl, _ := PlacementOf(&p, Held{})
	if got := pl.Scale * focal / distance; math.Abs(got-1) > 1e-12 {
		t.Errorf("a mm on the wheel's plane is taken for %.4f", got)
	}
	header := Header{Width: 4000, Height: 3000}
	p.CameraDistance = job.Optional{}
	doubt := func() float64 { d := DoubtOf(&p, header, 0); return d.scale }
	if got, least := doubt(), 0.5*ahead/UsualDistance; !(got > least && got < 1.2*least) {
		t.Errorf("of an unknown distance the scale is known within %.4f, want a little over %.4f", got, least)
	}
	if p.Calibration.Ahead = (job.Optional{}); doubt() > 1.1*ScaleDepth/UsualDistance {
		t.Errorf("on the wheel's plane it is known within %.4f", doubt())
	}
}
