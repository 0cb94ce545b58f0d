// Package canvas holds the widgets that are drawn on: front view and plan, the
// travel bar with its strips, the bars of rack and roll. What they show comes from
// package scene, what a hand does goes through package grip. For app's panels,
// pages and window; nothing that armcalc links may.
package canvas
