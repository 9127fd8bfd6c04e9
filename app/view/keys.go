package view

// KeyGroup is what keys do in one place.
type KeyGroup struct {
	Title string
	Lines []KeyLine
}

// KeyLine says what a key does.
type KeyLine struct{ Keys, What string }

// PageKeys are the keys of what is drawn on the pages; those of the menu stand in the menu.
var PageKeys = []KeyGroup{
	{"Everywhere", []KeyLine{
		{"F1", "this list, while the cursor is in no field"},
		{"Tab, Shift+Tab", "the next field or button, or the one before"},
		{"Escape", "closes what lies over the window"},
		{"Space", "presses the button, or ticks the box, that has the focus"},
	}},
	{"Find", []KeyLine{
		{"Up, Down", "another line of what is found"},
		{"Page Up, Page Down", "eight lines on"},
		{"Enter", "goes there"},
	}},
	{"Day: the board", []KeyLine{
		{"Up, Down", "the scene before, or after; with Ctrl, moves what is selected to another row"},
		{"Home, End", "the first scene, or the last"},
		{"Left, Right", "moves what is selected by five minutes; with Shift by one, with Ctrl by a slot"},
		{"Alt+Left, Alt+Right", "makes the shooting shorter, or longer; with Shift, the set-up"},
		{"Space", "pins what is selected"},
		{"Enter", "opens the scene"},
		{"Page Up, Page Down", "earlier and later in the day"},
		{"+, -, 0", "closer, further, the whole day"},
		{"Ctrl+A", "selects every scene"},
		{"Escape", "takes back what the mouse holds"},
	}},
	{"Day: the dates", []KeyLine{
		{"Left, Right", "the date before, or after"},
		{"Home, End", "the first date, or the last"},
		{"Ctrl+Left, Ctrl+Right", "compares the date shown with another; Escape ends it"},
		{"Delete", "takes the date shown out"},
	}},
	{"Day: the year", []KeyLine{
		{"Left, Right", "the day before, or after"},
		{"Up, Down", "a week earlier, or later"},
		{"Page Up, Page Down", "four weeks earlier, or later"},
		{"Home, End", "the first day, or the last"},
		{"Enter, Space", "proposes the date"},
	}},
	{"Property: the time of day", []KeyLine{
		{"Left, Right", "five minutes earlier, or later"},
		{"Page Down, Page Up", "an hour earlier, or later"},
		{"Home, End", "the beginning of the day, or its end"},
	}},
	{"People: what is cleared", []KeyLine{
		{"Arrows", "another cell"},
		{"Page Up, Page Down", "a screen of rows up, or down"},
		{"Home, End", "the first column, or the last"},
		{"Enter", "opens its release"},
	}},
	{"People: signing", []KeyLine{
		{"Backspace", "takes the last stroke away"},
		{"Delete", "takes the whole signature away"},
	}},
}
