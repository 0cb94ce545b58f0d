// Package recovery keeps what a person has not saved yet. Beside the open job,
// never in its file, stands a snapshot of it in the user's state folder; it is
// replaced after every gesture and goes when the job has been saved or its
// changes given up. What a crash or a kill leaves behind can be listed and
// opened.
//
// The folder holds, for every open document, a record of who has it open
// (*.open) and the snapshot (*.snapshot), and the list of recent files. Each
// is written whole or not at all. A document whose program is gone is told by
// its process, and on a shared home folder by how long it has been silent.
package recovery
