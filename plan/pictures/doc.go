// Package pictures makes and reads the small copies of pictures that a plan keeps beside it: how a scene is to look.
//
// Invariants: a copy is an upright JPEG of pixels alone, with its longest side at most Longest; where and when the picture was
// taken, and by whom, does not come along. A file is never written over. No file makes it panic, and none is decoded of which its
// head says that it would take more memory than maxPixels and maxBytes allow; one is decoded at a time.
//
// What is said of a colour space is dropped too, so a picture in a wide one comes out somewhat paler than it is.
package pictures
