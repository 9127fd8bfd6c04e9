package locate_test

import (
	"fmt"

	"eavelight/plan/locate"
)

func ExampleParse() {
	for _, text := range []string{"44°3'N 121°18'36\"W", "Bend, Oregon", "121.31W", "144.05, -12"} {
		found, err := locate.Parse(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%v: %s %q\n", found[0].Position, found[0].How, found[0].Name.String())
	}
	// Output:
	// 44.05000, -121.31000: degrees and minutes ""
	// 44.05820, -121.31530: town "Bend, Oregon, US"
	// "121.31W": latitude and longitude are two figures, as in 44.05, -121.31 or 44°3'N 121°18'36"W
	// 144.05 can't be a latitude, which goes from -90 to 90; latitude comes first: is it -12, 144.05?
}
