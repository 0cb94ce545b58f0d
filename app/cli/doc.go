// Package cli is the command line of armcalc: it reads the words, loads the
// job, asks package report, and writes. Standard output gets a whole answer or
// nothing; errors go to standard error, one a line.
package cli
