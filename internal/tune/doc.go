// Package tune sets a fitted system up: it reads a response measured at a
// seat, learns the cabin from it, chooses how sub and door speakers join, and
// proposes equaliser bands. It works on the linear responses that package
// system computes, so that every trial is algebra.
package tune
