// Package light tells the light at the property: sun and moon, skyline, faces, and for each light wish a value from 0 to 1
// for every minute of a day.
//
// The trap of the field: three different altitudes are called "the sun's altitude". Here Altitude is that of the disc's
// centre without an atmosphere (what twilights, golden and blue light and rise and set are counted by), Apparent is where
// the eye sees the centre, lifted by refraction (what stands above a skyline), and the upper limb is 16' above either.
//
// Sources: Jean Meeus, Astronomical Algorithms, 2nd ed., through the module soniakeys/meeus (chapter in each comment). The
// module sixdouglas/suncalc, a second way of computing the same, is held against it in a test.
//
// Not done here, because a later step does it: pressure and temperature in the refraction, the dip of a sea horizon, cloud,
// brightness in lux.
//
// Invariants: no clock, no file, no window. Results depend on the arguments alone.
package light
