package sheet

import "testing"

func TestGridAligns(t *testing.T) {
	g := grid{columns: []align{left, point, left}, titles: []span{{1, "a title longer than all"}}}
	g.row("", "value", "95 %")
	g.row("A heading that is longer than the whole table below it")
	g.row("Spur", "−1.25", "± 0.5")
	g.row("轨距", "1\u2009234", "± 20")
	g.row("e\u0301", "at infinity", "")
	want := "" +
		"      a title longer than all\n" +
		"            value  95 %\n" +
		"A heading that is longer than the whole table below it\n" +
		"Spur        −1.25  ± 0.5\n" +
		"轨距     1\u2009234     ± 20\n" +
		"e\u0301     at infinity\n"
	if got := g.String(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestCells(t *testing.T) {
	for text, want := range map[string]int{"Spur": 4, "−1.5": 4, "轨距": 4, "e\u0301t\u00e9": 3, "ｆ": 2, "": 0} {
		if got := cells(text); got != want {
			t.Errorf("%q takes %d, want %d", text, got, want)
		}
	}
}

func TestOneLine(t *testing.T) {
	if got := OneLine("a\x1b[2Jb\nc\u2028d"); got != "a [2Jb c d" {
		t.Errorf("%q", got)
	}
}
