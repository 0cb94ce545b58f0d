package bumppage

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/tune"
)

// take writes the table's readings down, after asking about what looks odd.
func (g *gaugeSheet) take() {
	for _, f := range []*pages.Field{g.width.Field, g.spacing.Field, g.within} {
		if f.Owing() {
			f.Hand()
		}
		if f.Owing() {
			return // the notice says why it is not taken
		}
	}
	list, err := g.collect()
	if err != nil {
		g.note.Wrong("", g.p.said(err))
		return
	}
	if slices.Equal(list, g.p.variant().ToeReadings) {
		g.note.Say("Nothing new stands in the table.")
		return
	}
	g.offer(list)
}

// offer takes readings that raise no question, and asks about others.
func (g *gaugeSheet) offer(list []job.ToeReading) {
	next := g.p.host.Job().Clone()
	next.Variants[g.p.host.Variant()].ToeReadings = list
	if problems := next.Problems(); len(problems) > 0 {
		g.note.Wrong("", problems)
		return
	}
	s := tune.SetupOf(next, g.p.host.Variant())
	s.Unit = g.p.setup.Unit
	doubts := s.Doubts(s.Readings)
	if len(doubts) == 0 {
		g.write(list)
		return
	}
	g.p.ask("Are these readings right?", questions(doubts),
		keyed.Choice{Text: "Put them right", Do: func() { g.note.Say("Nothing was written down; what you typed still stands in the table.") }},
		keyed.Choice{Text: "Take them as they are", Do: func() { g.write(list) }})
}

// questions joins doubts.
func questions(doubts []tune.Doubt) string {
	lines := make([]string, len(doubts))
	for i := range doubts {
		lines[i] = pages.UpperFirst(doubts[i].Question)
	}
	return strings.Join(lines, "\n")
}

func (g *gaugeSheet) write(list []job.ToeReading) {
	was := g.typed
	g.typed = map[string]string{} // the table holds them all from now on
	i := g.p.host.Variant()
	if err := g.p.host.Edit("write down toe readings", func(j *job.Job) { j.Variants[i].ToeReadings = list }); err != nil {
		g.typed = was
		g.p.Show()
		g.note.Wrong("", g.p.said(err))
		return
	}
	g.p.Show()
	text := fmt.Sprintf("%d readings are written down for %s.", len(list), g.p.variant().Name)
	for _, remark := range g.p.setup.Remarks(g.p.setup.Readings) {
		text += " " + pages.UpperFirst(remark)
	}
	g.note.Say(text)
}

// paste takes readings from the clipboard.
func (g *gaugeSheet) paste() {
	g.importText("pasted", fyne.CurrentApp().Clipboard().Content())
}

// importText takes readings from a text of lines.
func (g *gaugeSheet) importText(name, text string) {
	m, asks := tune.MeantBy(text, g.p.host.Job().Units, g.toeColumn())
	if !asks {
		taken, err := tune.ParseReadings(name, text, g.p.setup.Gauge)
		g.importTaken(taken, err)
		return
	}
	g.p.ask("Is this meant so?", m.Question,
		keyed.Choice{Text: "No, leave it", Do: func() { g.note.Say("Nothing was read.") }},
		keyed.Choice{Text: "Read it so", Do: func() { g.importTaken(m.Parse(name, g.p.setup.Gauge)) }})
}

// toeColumn is what a column of toe without a name is, in the job's unit and the
// way chosen; empty for dials, which are two columns.
func (g *gaugeSheet) toeColumn() string {
	switch g.way.Selected {
	case asLength:
		return "toe_" + g.p.host.Job().Units.String()
	case onDials:
		return ""
	}
	return "toe_deg"
}

func (g *gaugeSheet) importTaken(taken []tune.Taken, err error) {
	if err != nil {
		g.note.Wrong("", g.p.said(err))
		return
	}
	list := make([]job.ToeReading, len(taken))
	for i := range taken {
		list[i] = readingOf(taken[i].Reading)
	}
	old := g.p.variant().ToeReadings
	if len(old) == 0 {
		g.offer(list)
		return
	}
	g.p.ask("There are readings already", fmt.Sprintf("%d readings are written down for %s; %d come new.", len(old), g.p.variant().Name, len(list)),
		keyed.Choice{Text: "Leave all as it is", Do: func() {}},
		keyed.Choice{Text: "Replace them", Do: func() { g.offer(list) }},
		keyed.Choice{Text: "Add to them", Do: func() { g.offer(append(slices.Clone(old), list...)) }})
}

// askFile reads a file of readings.
func (g *gaugeSheet) askFile() {
	g.p.host.Dialogs.ChooseFile("Readings of the toe gauge", g.p.host.Folder(), []string{".csv", ".txt", ".tsv"}, func(path string) {
		text, err := readFile(path)
		if err != nil {
			g.note.Wrong("This file does not open: ", err)
			return
		}
		g.importText(filepath.Base(path), string(text))
	})
}

// readFile reads as much of a file as can be readings.
func readFile(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	text, err := io.ReadAll(io.LimitReader(f, tune.MaxReadingsFile+1))
	return text, errors.Join(err, f.Close())
}

// ask puts a question whose last choice is the weighty one.
func (p *Page) ask(title, text string, choices ...keyed.Choice) {
	p.host.Dialogs.Ask(title, text, keyed.Usual, true, choices...)
}
