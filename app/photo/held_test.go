package photo

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/jpeg"
	"math"
	"testing"

	"armscribe/app/job"
)

// exifOf is an Exif block that says an orientation, among other entries.
func exifOf(order binary.AppendByteOrder, mark string, value uint16) []byte {
	b := append([]byte(exifMark), mark...)
	b = order.AppendUint32(b, 8)
	b = order.AppendUint16(b, 2)
	for _, e := range [2][3]uint16{{0x0110, 2, 7}, {orientationTag, shortType, value}} {
		b = order.AppendUint16(order.AppendUint16(b, e[0]), e[1])
		b = order.AppendUint32(b, 1)
		b = order.AppendUint16(order.AppendUint16(b, e[2]), 0)
	}
	return order.AppendUint32(b, 0)
}

// withBlock puts a block into a JPEG behind its first mark.
func withBlock(t *testing.T, w, h int, block []byte) []byte {
	t.Helper()
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, image.NewGray(image.Rect(0, 0, w, h)), nil); err != nil {
		t.Fatal(err)
	}
	data := buf.Bytes()
	head := binary.BigEndian.AppendUint16([]byte{0xff, 0xd8, 0xff, appOne}, uint16(len(block)+2))
	return append(append(head, block...), data[2:]...)
}

// As it says it was held, the picture's stored corner stands where the standard has
// the row and column of its first pixel: for 1 to 8 at the top left, top right,
// bottom right, bottom left, left top, right top, right bottom, left bottom.
func TestAPictureStandsAsItsCameraWasHeld(t *testing.T) {
	const w, h = 40, 24
	// Where the stored row runs along, and where the stored column goes, on the view.
	rows := [8][2]float64{{1, 0}, {-1, 0}, {-1, 0}, {1, 0}, {0, -1}, {0, -1}, {0, 1}, {0, 1}}
	columns := [8][2]float64{{0, -1}, {0, -1}, {0, 1}, {0, 1}, {1, 0}, {-1, 0}, {-1, 0}, {1, 0}}
	for i := range rows {
		for mark, order := range map[string]binary.AppendByteOrder{"II*\x00": binary.LittleEndian, "MM\x00*": binary.BigEndian} {
			got, err := Check(withBlock(t, w, h, exifOf(order, mark, uint16(i+1))))
			if err != nil || got.Width != w || got.Height != h {
				t.Fatalf("orientation %d: %+v, %v", i+1, got, err)
			}
			for _, rightSide := range []bool{false, true} {
				pl, _ := PlacementOf(&job.Photo{File: "a.jpg", Mirrored: rightSide}, got.Held)
				side := 1.0
				if rightSide { // turned over as it is seen
					side = -1
				}
				oy, oz := pl.OnCar(job.Pixel{})
				ry, rz := pl.OnCar(job.Pixel{X: 1})
				cy, cz := pl.OnCar(job.Pixel{Y: 1})
				if math.Hypot(ry-oy-side*rows[i][0], rz-oz-rows[i][1]) > 1e-9 || math.Hypot(cy-oy-side*columns[i][0], cz-oz-columns[i][1]) > 1e-9 {
					t.Errorf("orientation %d, right side %v: rows run %g, %g, columns %g, %g", i+1, rightSide, ry-oy, rz-oz, cy-oy, cz-oz)
				}
			}
		}
	}
	level := job.Photo{File: "a.jpg", Level: job.Level{Given: true, A: job.Pixel{X: 3, Y: 20}, B: job.Pixel{X: 3, Y: 2}}}
	pl, _ := PlacementOf(&level, holds[6])
	if math.Abs(pl.Turn+math.Pi/2) > 1e-9 {
		t.Errorf("levelled, it is turned by %g", pl.Turn)
	}
}

// A block that is cut off or lies anywhere says nothing, and nothing is read beyond it.
func TestABrokenBlockSaysNothing(t *testing.T) {
	whole := exifOf(binary.BigEndian, "MM\x00*", 6)
	for n := range len(whole) - 15 { // before the value
		if h, err := Check(withBlock(t, 8, 8, whole[:n])); err != nil || h.Held != (Held{}) {
			t.Errorf("%d bytes: %+v, %v", n, h, err)
		}
	}
	for at := range whole {
		odd := bytes.Clone(whole)
		odd[at] ^= 0xff
		if _, err := Check(withBlock(t, 8, 8, odd)); err != nil {
			t.Errorf("byte %d: %v", at, err)
		}
	}
	if h, _ := Check(withBlock(t, 8, 8, exifOf(binary.LittleEndian, "II*\x00", 9))); h.Held != (Held{}) {
		t.Errorf("orientation 9: %+v", h)
	}
}
