package look

import (
	"encoding/binary"
	"fmt"
	"maps"
	"slices"

	"armscribe/canvas/draw/font"
)

// glyph is a sign to add to a font file: its outline in em, straight or
// quadratic, and how far it moves the pen.
type glyph struct {
	r       rune
	advance float64
	outline []font.Seg
}

// The parts of the OpenType specification (ISO/IEC 14496-22) that this file
// relies on: table directory, 'head', 'maxp', 'hhea', 'hmtx', 'loca', 'glyf',
// 'cmap' formats 4 and 12, 'post' version 3. Offsets are as that standard has
// them, from memory; the tests read the result with two other readers.

// withGlyphs returns a copy of a TrueType file that has the glyphs too. A file
// that is no TrueType font panics: the only ones are part of the program.
func withGlyphs(ttf []byte, extra []glyph) []byte {
	t := tables(ttf)
	head, maxp := t["head"], t["maxp"]
	count := int(u16(maxp, 4))
	t.widenMetrics(count)
	t.longOffsets(count)
	mapped := t.runes()
	for i, g := range extra {
		body := encodeGlyph(g.outline, float64(u16(head, 18)))
		t["glyf"] = append(t["glyf"], body...)
		t["loca"] = be.AppendUint32(t["loca"], uint32(len(t["glyf"])))
		left := int16(0)
		if len(body) > 0 {
			left = int16(u16(body, 2))
		}
		t["hmtx"] = be.AppendUint16(t["hmtx"], uint16(g.advance*float64(u16(head, 18))+0.5))
		t["hmtx"] = be.AppendUint16(t["hmtx"], uint16(left))
		mapped[g.r] = uint16(count + i)
	}
	be.PutUint16(maxp[4:], uint16(count+len(extra)))
	be.PutUint16(t["hhea"][34:], uint16(count+len(extra)))
	t["cmap"] = encodeRunes(mapped)
	t["post"] = slices.Clone(t["post"][:32])
	be.PutUint32(t["post"], 0x00030000) // without names, which would be too few
	return t.file(u32(ttf, 0))
}

var be = binary.BigEndian

func u16(b []byte, at int) uint16 { return be.Uint16(b[at:]) }
func u32(b []byte, at int) uint32 { return be.Uint32(b[at:]) }

// fontFile is a font file by its tables.
type fontFile map[string][]byte

func tables(ttf []byte) fontFile {
	t := fontFile{}
	for i := range int(u16(ttf, 4)) {
		d := ttf[12+16*i:]
		t[string(d[:4])] = slices.Clone(ttf[u32(d, 8) : u32(d, 8)+u32(d, 12)])
	}
	return t
}

// widenMetrics gives each glyph its own advance; a file may leave out repeats
// at the end.
func (t fontFile) widenMetrics(glyphs int) {
	own, old := int(u16(t["hhea"], 34)), t["hmtx"]
	list := slices.Clone(old[:4*own])
	for i := range glyphs - own {
		list = append(list, old[4*own-4:4*own-2]...)
		list = append(list, old[4*own+2*i:4*own+2*i+2]...)
	}
	t["hmtx"] = list
}

// longOffsets makes the places of the glyphs 32 bits wide.
func (t fontFile) longOffsets(glyphs int) {
	if u16(t["head"], 50) == 1 {
		return
	}
	var list []byte
	for i := range glyphs + 1 {
		list = be.AppendUint32(list, 2*uint32(u16(t["loca"], 2*i)))
	}
	t["loca"] = list
	be.PutUint16(t["head"][50:], 1)
}

// runes reads which glyph stands for which rune, from the table of format 4.
func (t fontFile) runes() map[rune]uint16 {
	c := t["cmap"]
	for i := range int(u16(c, 2)) {
		if sub := c[u32(c, 8+8*i):]; u16(sub, 0) == 4 {
			return runesOf4(sub)
		}
	}
	panic("look: the font has no table of runes of format 4")
}

func runesOf4(sub []byte) map[rune]uint16 {
	n := int(u16(sub, 6)) / 2
	ends, starts, deltas, offsets := 14, 16+2*n, 16+4*n, 16+6*n
	m := map[rune]uint16{}
	for i := range n {
		delta, offset := u16(sub, deltas+2*i), int(u16(sub, offsets+2*i))
		for r := int(u16(sub, starts+2*i)); r <= int(u16(sub, ends+2*i)); r++ {
			g := uint16(r) + delta
			if offset != 0 {
				if g = u16(sub, offsets+2*i+offset+2*(r-int(u16(sub, starts+2*i)))); g != 0 {
					g += delta
				}
			}
			if g != 0 && r != 0xFFFF {
				m[rune(r)] = g
			}
		}
	}
	return m
}

// encodeRunes writes the table of runes in format 12: runs of runes whose
// glyphs run along.
func encodeRunes(m map[rune]uint16) []byte {
	var groups []byte
	n := uint32(0)
	last, glyph := rune(-2), uint16(0)
	for _, r := range slices.Sorted(maps.Keys(m)) {
		if r == last+1 && m[r] == glyph+1 {
			be.PutUint32(groups[len(groups)-8:], uint32(r))
		} else {
			groups = be.AppendUint32(groups, uint32(r))
			groups = be.AppendUint32(groups, uint32(r))
			groups = be.AppendUint32(groups, uint32(m[r]))
			n++
		}
		last, glyph = r, m[r]
	}
	out := []byte{0, 0, 0, 1, 0, 3, 0, 10, 0, 0, 0, 12, 0, 12, 0, 0}
	out = be.AppendUint32(out, uint32(16+len(groups)))
	out = be.AppendUint32(out, 0) // of no one language
	out = be.AppendUint32(out, n)
	return append(out, groups...)
}

// encodeGlyph writes a simple glyph; an empty outline is no bytes.
func encodeGlyph(outline []font.Seg, em float64) []byte {
	g := contours(outline, em)
	if len(g.x) == 0 {
		return nil
	}
	b := be.AppendUint16(nil, uint16(len(g.ends)))
	for _, v := range []int16{slices.Min(g.x), slices.Min(g.y), slices.Max(g.x), slices.Max(g.y)} {
		b = be.AppendUint16(b, uint16(v))
	}
	for _, e := range g.ends {
		b = be.AppendUint16(b, e)
	}
	b = be.AppendUint16(b, 0) // no instructions
	b = append(b, g.flags...)
	for _, list := range [][]int16{g.x, g.y} {
		last := int16(0)
		for _, v := range list {
			b = be.AppendUint16(b, uint16(v-last))
			last = v
		}
	}
	for len(b)%4 != 0 {
		b = append(b, 0)
	}
	return b
}

// contour points of a glyph; a flag is 1 on the outline, 0 for a control point.
type points struct {
	x, y  []int16
	flags []byte
	ends  []uint16
}

func contours(outline []font.Seg, em float64) points {
	var g points
	add := func(p [2]float64, on byte) {
		g.x, g.y = append(g.x, unit(p[0]*em)), append(g.y, unit(p[1]*em))
		g.flags = append(g.flags, on)
	}
	start := 0
	end := func() {
		n := len(g.x) - 1
		if n > start && g.x[n] == g.x[start] && g.y[n] == g.y[start] && g.flags[n] == 1 {
			g.x, g.y, g.flags = g.x[:n], g.y[:n], g.flags[:n] // a contour closes by itself
			n--
		}
		if n >= start {
			g.ends = append(g.ends, uint16(n))
		}
		start = n + 1
	}
	for _, s := range outline {
		switch s.Op {
		case font.MoveTo:
			end()
			add(s.P[0], 1)
		case font.LineTo:
			add(s.P[0], 1)
		case font.QuadTo:
			add(s.P[0], 0)
			add(s.P[1], 1)
		default:
			panic(fmt.Sprintf("look: outline step %d has no place in a TrueType glyph", s.Op))
		}
	}
	end()
	return g
}

// unit rounds to whole units of the font.
func unit(v float64) int16 {
	if v < 0 {
		return -unit(-v)
	}
	return int16(v + 0.5)
}

// file puts the tables together.
func (t fontFile) file(version uint32) []byte {
	tags := slices.Sorted(maps.Keys(t))
	out := be.AppendUint32(nil, version)
	power, log := 1, 0
	for power*2 <= len(tags) {
		power, log = power*2, log+1
	}
	for _, v := range []int{len(tags), 16 * power, log, 16 * (len(tags) - power)} {
		out = be.AppendUint16(out, uint16(v))
	}
	at := 12 + 16*len(tags)
	be.PutUint32(t["head"][8:], 0)
	for _, tag := range tags {
		out = append(out, tag...)
		for _, v := range []uint32{checksum(t[tag]), uint32(at), uint32(len(t[tag]))} {
			out = be.AppendUint32(out, v)
		}
		at += (len(t[tag]) + 3) &^ 3
	}
	head := 0
	for _, tag := range tags {
		if tag == "head" {
			head = len(out)
		}
		out = append(out, t[tag]...)
		for len(out)%4 != 0 {
			out = append(out, 0)
		}
	}
	be.PutUint32(out[head+8:], 0xB1B0AFBA-checksum(out))
	return out
}

// checksum is the sum of all 32-bit words, the last filled up with zeros.
func checksum(b []byte) uint32 {
	sum := uint32(0)
	for i := 0; i < len(b); i += 4 {
		var word [4]byte
		copy(word[:], b[i:])
		sum += be.Uint32(word[:])
	}
	return sum
}
