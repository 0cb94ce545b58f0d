// Package photo reads the picture that a job lays under its view, and places
// it on the car.
//
// A picture named in a job is opened within the job's folder and nowhere else,
// whatever links stand there: a job file may come from anybody. One that the
// person has picked in a dialog is opened where it is. Its header is checked
// before a pixel is decoded.
//
// Pixels are counted as they are stored. How a camera says it was held turns the
// picture until it is levelled, which holds from a quarter turn to upside down.
package photo
