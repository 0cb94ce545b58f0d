package draw

import "image/color"

// Token names a colour by its use.
type Token uint8

// The tokens. None paints nothing.
const (
	None     Token = iota
	Paper          // ground of a drawing
	Panel          // ground of a side panel
	Window         // ground of the window
	Ink            // lines and text
	Quiet          // lesser lines and text
	Hairline       // grids and ghosts
	Now            // what is worked on: tie rod, scrub radius
	Before         // the compared variant
	Good           // roll centre, target met
	NowText        // Now as small text
	tokenCount
)

// Tokens is the number of tokens; they run from None = 0.
const Tokens = int(tokenCount)

// Palette gives every token a colour; the colour of None is not used.
type Palette [tokenCount]color.NRGBA

// Light returns the palette of warm paper and ink. Now, Before and Good lie on
// vermilion, blue and bluish green of Okabe and Ito's set for all kinds of
// colour sight (Color Universal Design, 2008).
func Light() *Palette {
	return &Palette{
		Paper:    rgb(0xFBFAF6),
		Panel:    rgb(0xF6F4EE),
		Window:   rgb(0xF1EFE9),
		Ink:      rgb(0x1B1B1B),
		Quiet:    rgb(0x6B675F),
		Hairline: rgb(0xCFCABF),
		Now:      rgb(0xD55E00),
		Before:   rgb(0x0072B2),
		Good:     rgb(0x00805C),
		NowText:  rgb(0xB04E00),
	}
}

// Dark returns the palette of dark paper.
func Dark() *Palette {
	return &Palette{
		Paper:    rgb(0x1E1F22),
		Panel:    rgb(0x222327),
		Window:   rgb(0x17181A),
		Ink:      rgb(0xECE8DF),
		Quiet:    rgb(0xA39E93),
		Hairline: rgb(0x3A3B3F),
		Now:      rgb(0xF07A2E),
		Before:   rgb(0x4AA3DC),
		Good:     rgb(0x3FBF94),
		NowText:  rgb(0xF07A2E),
	}
}

// Print returns the light palette on white paper, for files that are printed.
func Print() *Palette {
	p := Light()
	p[Paper] = rgb(0xFFFFFF)
	return p
}

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 0xFF}
}
