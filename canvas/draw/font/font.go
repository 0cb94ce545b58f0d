// Package font holds the typeface of every drawing, its widths and its
// outlines. All lengths are in em: multiply by the text size.
//
// Widths are the unhinted ones of the font file, so a text is as wide on paper
// as on screen. There is no kerning, and figures are tabular: a reading does
// not tremble while it changes.
package font

import (
	_ "embed" // the font files
	"fmt"
	"sync"
	"unicode/utf8"

	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Face is a weight of the typeface.
type Face uint8

// The faces.
const (
	Regular Face = iota
	Bold
	faceCount
)

// Vertical measures from the baseline, in em, the same in both faces. Ascent
// and Descent enclose capitals, figures, stems and tails; an accent on a capital
// reaches 0.13 em higher. The file's own line ascent of 1.045 and descent of
// 0.369 are looser.
const (
	CapHeight = 0.714
	XHeight   = 0.536
	Ascent    = 0.80
	Descent   = 0.24
	LineStep  = 1.36
)

//go:embed NotoSans-Regular.ttf
var regularTTF []byte

//go:embed NotoSans-Bold.ttf
var boldTTF []byte

// quickRunes is the size of the table of widths; it covers Latin letters with
// accents, figures and fractions. Others go through a map.
const quickRunes = 0x250

type face struct {
	mu    sync.Mutex
	once  sync.Once
	sf    *sfnt.Font
	buf   sfnt.Buffer
	em    fixed.Int26_6
	quick [quickRunes]float64
	rare  map[rune]float64
}

var faces [faceCount]face

// TTF returns the font file of the face. The bytes must not be changed.
func (f Face) TTF() []byte {
	if f == Bold {
		return boldTTF
	}
	return regularTTF
}

// Advance returns how far r moves the pen, in em. A rune that the face lacks
// has the width of the box that stands for it.
func (f Face) Advance(r rune) float64 {
	d := f.load()
	if r >= 0 && r < quickRunes {
		return d.quick[r]
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	w, ok := d.rare[r]
	if !ok {
		w = d.advance(standIn(r))
		d.rare[r] = w
	}
	return w
}

// Width returns the width of text in em.
func (f Face) Width(text string) float64 {
	w := 0.0
	for _, r := range text {
		w += f.Advance(r)
	}
	return w
}

// WidthBytes is Width for UTF-8 bytes, without a conversion.
func (f Face) WidthBytes(text []byte) float64 {
	w := 0.0
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRune(text[i:])
		w += f.Advance(r)
		i += n
	}
	return w
}

// Has tells whether r can be drawn as itself rather than as a box.
func (f Face) Has(r rune) bool {
	d := f.load()
	d.mu.Lock()
	defer d.mu.Unlock()
	i, err := d.sf.GlyphIndex(&d.buf, standIn(r))
	return err == nil && i != 0
}

// load reads the face on first use. The files are part of the program, so a
// failure is a fault of the build and panics.
func (f Face) load() *face {
	d := &faces[f]
	d.once.Do(func() {
		sf, err := sfnt.Parse(f.TTF())
		if err != nil {
			panic(fmt.Sprintf("font: the font file in the program is damaged: %v", err))
		}
		d.sf = sf
		d.em = fixed.I(int(sf.UnitsPerEm()))
		d.rare = map[rune]float64{}
		for r := range d.quick {
			d.quick[r] = d.advance(standIn(rune(r)))
		}
	})
	return d
}

func (d *face) advance(r rune) float64 {
	i, err := d.sf.GlyphIndex(&d.buf, r)
	if err != nil {
		panic(fmt.Sprintf("font: looking up %q: %v", r, err))
	}
	a, err := d.sf.GlyphAdvance(&d.buf, i, d.em, xfont.HintingNone)
	if err != nil {
		panic(fmt.Sprintf("font: width of %q: %v", r, err))
	}
	return float64(a) / float64(d.em)
}
