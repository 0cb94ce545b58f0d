package photo

import (
	"bytes"
	"encoding/binary"
	"math"
)

// Held is how a camera says that it was held: the stored picture is turned over
// about its upright if Mirrored, then turned counter-clockwise, rad, to stand as it
// was taken.
type Held struct {
	Mirrored bool
	Turn     float64
}

// holds are the orientations 1 to 8. Source: Exif 2.32, tag 0x0112 (from memory).
var holds = [9]Held{
	2: {true, 0}, 3: {false, math.Pi}, 4: {true, math.Pi},
	5: {true, math.Pi / 2}, 6: {false, -math.Pi / 2}, 7: {true, -math.Pi / 2}, 8: {false, math.Pi / 2},
}

// Of an Exif block: its mark, and the entries of its first directory. Source: Exif
// 2.32 and TIFF 6.0 (from memory).
const (
	appOne         = 0xe1
	exifMark       = "Exif\x00\x00"
	orientationTag = 0x0112
	shortType      = 3
	entrySize      = 12
)

// heldOf reads the orientation of a JPEG; what says none, or says it wrongly, is as
// stored.
func heldOf(data []byte) (h Held) {
	segments(data, func(marker byte, body []byte) bool {
		if marker != appOne || !bytes.HasPrefix(body, []byte(exifMark)) {
			return true
		}
		h = holds[orientation(body[len(exifMark):])]
		return false
	})
	return h
}

// orientation is 1 to 8, or 0.
func orientation(tiff []byte) int {
	if len(tiff) < 8 {
		return 0
	}
	var order binary.ByteOrder
	switch string(tiff[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return 0
	}
	at := int64(order.Uint32(tiff[4:]))
	if at+2 > int64(len(tiff)) {
		return 0
	}
	entries := tiff[at+2:]
	for range order.Uint16(tiff[at:]) {
		if len(entries) < entrySize {
			return 0
		}
		if order.Uint16(entries) == orientationTag && order.Uint16(entries[2:]) == shortType && order.Uint32(entries[4:]) == 1 {
			if v := int(order.Uint16(entries[8:])); v < len(holds) {
				return v
			}
			return 0
		}
		entries = entries[entrySize:]
	}
	return 0
}
