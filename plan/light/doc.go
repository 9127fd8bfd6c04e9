// Package light tells the light at the property: sun and moon, skyline, faces and spaces, brightness, and for each light wish
// a value from 0 to 1 for every minute of a day.
//
// The trap of the field: three different altitudes are called "the sun's altitude". Here Altitude is that of the disc's
// centre without an atmosphere (what twilights, golden and blue light and rise and set are counted by), Apparent is where
// the eye sees the centre, lifted by refraction (what stands above a skyline), and the upper limb is 16' above either.
//
// A second trap: the sun's light and the sky's part ways. Skyline, wings, cloud and the far side of the house take the sun
// itself (Direct, Sunlit, NeedsSun); the glow of the sky stays.
//
// Never look at the sun through a lens; Frame tells when it would stand in one.
//
// Sources: Jean Meeus, Astronomical Algorithms, 2nd ed., through the module soniakeys/meeus (chapter in each comment); the
// daylight model of the Illuminating Engineering Society (DaylightAt). The module sixdouglas/suncalc, a second way of
// computing the sun, and tables made with other libraries are held against it in the tests.
//
// Invariants: no clock, no file, no window. Results depend on the arguments alone. A Sky may be asked from many goroutines.
package light
