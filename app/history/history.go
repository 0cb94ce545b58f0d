// Package history is undo and redo of whole small documents: every ended
// gesture keeps the document before it, under the gesture's name. Package document
// holds one; anyone in app may.
package history

// Limit is how many gestures can be undone; older ones are forgotten.
const Limit = 500

// History holds the present document and what undo and redo lead to. The
// documents are taken as they are: pass values, or clones that nobody edits.
type History[T any] struct {
	now  T
	past []step[T] // oldest first
	next []step[T] // nearest last
	run  string    // key of the run that the last step may be joined by
}

// step is a document with the name of the gesture that left it.
type step[T any] struct {
	doc  T
	name string
}

// Of returns a history that starts with a document.
func Of[T any](doc T) *History[T] { return &History[T]{now: doc} }

// Now returns the present document.
func (h *History[T]) Now() T { return h.now }

// Do makes doc the present document, under the name of the gesture that made
// it ('move lower ball joint'). What could be redone is forgotten. Gestures in
// a row with the same run key, which must not be empty, count as one: the
// presses of a nudging key, say.
func (h *History[T]) Do(name, run string, doc T) {
	joined := run != "" && run == h.run && len(h.past) > 0
	if !joined {
		h.past = append(h.past, step[T]{h.now, name})
		if len(h.past) > Limit {
			h.past = append(h.past[:0:0], h.past[len(h.past)-Limit:]...)
		}
	}
	h.now, h.next, h.run = doc, nil, run
}

// EndRun closes a run of gestures: the next one counts for itself.
func (h *History[T]) EndRun() { h.run = "" }

// Undo goes back before the last gesture and returns its name; false when
// there is none.
func (h *History[T]) Undo() (name string, ok bool) {
	return h.shift(&h.past, &h.next)
}

// Redo does the last undone gesture again and returns its name; false when
// there is none.
func (h *History[T]) Redo() (name string, ok bool) {
	return h.shift(&h.next, &h.past)
}

func (h *History[T]) shift(from, to *[]step[T]) (string, bool) {
	h.run = ""
	n := len(*from)
	if n == 0 {
		return "", false
	}
	s := (*from)[n-1]
	*from = (*from)[:n-1]
	*to = append(*to, step[T]{h.now, s.name})
	h.now = s.doc
	return s.name, true
}

// UndoName returns what Undo would undo, RedoName what Redo would redo; empty
// when there is nothing.
func (h *History[T]) UndoName() string { return lastName(h.past) }

// RedoName: see UndoName.
func (h *History[T]) RedoName() string { return lastName(h.next) }

func lastName[T any](s []step[T]) string {
	if len(s) == 0 {
		return ""
	}
	return s[len(s)-1].name
}
