package photo

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	_ "image/jpeg" // the formats that cameras
	_ "image/png"  // and telephones write
)

// Limits of a picture.
const (
	MaxFile   = 32 << 20   // bytes
	MaxSide   = 16_384     // pixels
	MaxPixels = 64_000_000 // more than any camera at hand has
	// MaxMemory is what decoding may take, in bytes.
	MaxMemory = 256 << 20
)

// Header is what a picture says of itself.
type Header struct {
	Format        string // jpeg or png
	Width, Height int    // pixels
	// Memory is what its decoding takes, in bytes.
	Memory int64
	// Held is how its camera was held; zero where it does not say.
	Held Held
}

// Error is why a picture is not shown. The job is none the worse.
type Error struct {
	File string
	What string // what is wrong
	Cure string
	Err  error // what lies beneath; may be nil
}

// Error names file, problem and cure in one line.
func (e *Error) Error() string { return fmt.Sprintf("%s: %s; %s", e.File, e.What, e.Cure) }

// Unwrap returns what lies beneath.
func (e *Error) Unwrap() error { return e.Err }

// Check reads the header of a picture and refuses what is too large or no
// picture. It decodes nothing. The error is *Error, without the file.
func Check(data []byte) (Header, error) {
	if len(data) > MaxFile {
		return Header{}, &Error{What: "is larger than 32 MiB", Cure: "save a smaller copy"}
	}
	c, format, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return Header{}, &Error{What: "is no PNG or JPEG picture", Cure: "choose another, or save it as one", Err: err}
	}
	h := Header{Format: format, Width: c.Width, Height: c.Height}
	switch {
	case c.Width <= 0 || c.Height <= 0:
		return h, &Error{What: "has no pixels", Cure: "choose another"}
	case c.Width > MaxSide || c.Height > MaxSide:
		return h, &Error{What: fmt.Sprintf("is %d x %d pixels, more than %d on a side", c.Width, c.Height, MaxSide), Cure: "save a smaller copy"}
	case int64(c.Width)*int64(c.Height) > MaxPixels:
		return h, &Error{What: fmt.Sprintf("has %d megapixels, more than %d", int64(c.Width)*int64(c.Height)/1_000_000, MaxPixels/1_000_000), Cure: "save a smaller copy"}
	}
	h.Memory = int64(float64(c.Width) * float64(c.Height) * bytesPerPixel(data, format, c.ColorModel))
	if format == "jpeg" {
		h.Held = heldOf(data)
	}
	if h.Memory > MaxMemory {
		return h, &Error{What: fmt.Sprintf("takes %d MiB to decode, more than %d", h.Memory>>20, MaxMemory>>20),
			Cure: "save a smaller copy, with 8 bits a colour and not progressive"}
	}
	return h, nil
}

// bytesPerPixel is what the standard library's decoders take for each pixel.
func bytesPerPixel(data []byte, format string, model color.Model) float64 {
	if format == "jpeg" {
		return jpegBytes(data)
	}
	each := 1.0 // grey, or a palette
	switch model {
	case color.Gray16Model:
		each = 2
	case color.RGBAModel, color.NRGBAModel:
		each = 4
	case color.RGBA64Model, color.NRGBA64Model:
		each = 8
	}
	if len(data) > pngInterlace && data[pngInterlace] != 0 {
		each *= 1.5 // the last pass, half of the picture, stands beside the whole
	}
	return each
}

// pngInterlace is where a PNG file says whether it comes in passes: the last
// byte of its header chunk. Source: ISO/IEC 15948, 11.2.2 (from memory).
const pngInterlace = 28

// Of a JPEG file: markers and the frame header. Source: ITU-T T.81, B.1 and
// B.2.2 (from memory).
const (
	startOfFrame       = 0xc0
	progressiveFrame   = 0xc2
	frameFixed         = 6 // bytes before the components
	frameEach          = 3 // bytes of each component
	coefficientBytes   = 4 // that the decoder keeps of a progressive sample
	worstBytesPerPixel = 4 * (1 + coefficientBytes)
)

// jpegBytes reads the frame header: each component holds a byte a sample, and
// a progressive one its coefficient too. What cannot be read counts as worst.
func jpegBytes(data []byte) float64 {
	each := float64(worstBytesPerPixel)
	segments(data, func(marker byte, body []byte) bool {
		if marker >= startOfFrame && marker <= progressiveFrame {
			each = frameBytes(body, marker == progressiveFrame)
			return false
		}
		return true
	})
	return each
}

// segments goes through those of a JPEG, as far as they are whole and visit says.
func segments(data []byte, visit func(marker byte, body []byte) bool) {
	for at := 2; at+4 <= len(data); {
		if data[at] != 0xff {
			at++ // what lies between segments is skipped, as the decoder does
			continue
		}
		marker := data[at+1]
		switch {
		case marker == 0xff || marker == 0:
			at++
			continue
		case marker >= 0xd0 && marker <= 0xd7: // has no length
			at += 2
			continue
		}
		length := int(binary.BigEndian.Uint16(data[at+2:]))
		end := at + 2 + length
		if length < 2 || end > len(data) || !visit(marker, data[at+4:end]) {
			return
		}
		at = end
	}
}

func frameBytes(frame []byte, progressive bool) float64 {
	if len(frame) < frameFixed+frameEach || len(frame) < frameFixed+frameEach*int(frame[frameFixed-1]) {
		return worstBytesPerPixel
	}
	samples, widest, highest := 0, 1, 1
	for i := range int(frame[frameFixed-1]) {
		factors := frame[frameFixed+frameEach*i+1]
		across, down := int(factors>>4), int(factors&15)
		samples += across * down
		widest, highest = max(widest, across), max(highest, down)
	}
	each := float64(samples) / float64(widest*highest)
	if len(frame) >= frameFixed+4*frameEach && frame[frameFixed-1] == 4 {
		each = 8 // four colours are decoded into a copy of full size
	}
	if progressive {
		each *= 1 + coefficientBytes
	}
	return min(each, 2*worstBytesPerPixel)
}
