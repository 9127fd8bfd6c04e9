package view

import "eavelight/app/tongue"

// KeyGroup is what keys do in one place.
type KeyGroup struct {
	Title string
	Lines []KeyLine
}

// KeyLine says what a key does.
type KeyLine struct{ Keys, What string }

// PageKeys are the keys of what is drawn on the pages; those of the menu stand in the menu.
func PageKeys() []KeyGroup {
	return []KeyGroup{
		{tongue.Say("Everywhere"), []KeyLine{
			{"F1", tongue.Say("this list, while the cursor is in no field")},
			{tongue.Say("keys|Tab, Shift+Tab"), tongue.Say("the next field or button, or the one before")},
			{tongue.Say("keys|Escape"), tongue.Say("closes what lies over the window")},
			{tongue.Say("keys|Space"), tongue.Say("presses the button, or ticks the box, that has the focus")},
		}},
		{tongue.Say("Find"), []KeyLine{
			{tongue.Say("keys|Up, Down"), tongue.Say("another line of what is found")},
			{tongue.Say("keys|Page Up, Page Down"), tongue.Say("eight lines on")},
			{tongue.Say("keys|Enter"), tongue.Say("goes there")},
		}},
		{tongue.Say("Scenes: the table"), []KeyLine{
			{tongue.Say("keys|Arrows"), tongue.Say("another cell")},
			{tongue.Say("keys|Shift+Up, Shift+Down"), tongue.Say("marks rows, as a press with Shift does: what copies, duplicates or deletes is for all of them")},
			{tongue.Say("keys|Page Up, Page Down"), tongue.Say("a screen of rows up, or down")},
			{tongue.Say("keys|Home, End"), tongue.Say("the first column, or the last")},
			{tongue.Say("keys|Enter"), tongue.Say("writes in the cell, or lists what it can say; so does typing")},
			{tongue.Say("keys|Delete"), tongue.Say("empties the cell")},
			{"Ctrl+C", tongue.Say("copies the cell; where several rows are marked, the rows")},
			{tongue.Say("keys|Ctrl+Shift+C"), tongue.Say("copies the row, or all that are marked, with the headings, for a spreadsheet or another plan")},
			{"Ctrl+V", tongue.Say("pastes the cell that was copied here; anything else as rows, shown before they are added")},
		}},
		{tongue.Say("Day: the board"), []KeyLine{
			{tongue.Say("keys|Up, Down"), tongue.Say("the scene before, or after; with Ctrl, moves what is selected to another row")},
			{tongue.Say("keys|Home, End"), tongue.Say("the first scene, or the last")},
			{tongue.Say("keys|Left, Right"), tongue.Say("moves what is selected by five minutes; with Shift by one, with Ctrl by a slot")},
			{tongue.Say("keys|Alt+Left, Alt+Right"), tongue.Say("makes the shooting shorter, or longer; with Shift, the set-up")},
			{tongue.Say("keys|Space"), tongue.Say("pins what is selected")},
			{tongue.Say("keys|Enter"), tongue.Say("opens the scene")},
			{tongue.Say("keys|Page Up, Page Down"), tongue.Say("earlier and later in the day")},
			{tongue.Say("keys|Ctrl+Page Up, Page Down"), tongue.Say("to the day of the shoot before, or after")},
			{"+, -, 0", tongue.Say("closer, further, the whole day")},
			{"Ctrl+A", tongue.Say("selects every scene")},
			{tongue.Say("keys|Escape"), tongue.Say("takes back what the mouse holds")},
		}},
		{tongue.Say("Day: the dates"), []KeyLine{
			{tongue.Say("keys|Left, Right"), tongue.Say("the date before, or after")},
			{tongue.Say("keys|Home, End"), tongue.Say("the first date, or the last")},
			{tongue.Say("keys|Ctrl+Left, Ctrl+Right"), tongue.Say("compares the date shown with another; Escape ends it")},
			{tongue.Say("keys|Delete"), tongue.Say("takes the date shown out")},
		}},
		{tongue.Say("Day: the year"), []KeyLine{
			{tongue.Say("keys|Left, Right"), tongue.Say("the day before, or after")},
			{tongue.Say("keys|Up, Down"), tongue.Say("a week earlier, or later")},
			{tongue.Say("keys|Page Up, Page Down"), tongue.Say("four weeks earlier, or later")},
			{tongue.Say("keys|Home, End"), tongue.Say("the first day, or the last")},
			{tongue.Say("keys|Enter, Space"), tongue.Say("proposes the date")},
		}},
		{tongue.Say("Property: the time of day"), []KeyLine{
			{tongue.Say("keys|Left, Right"), tongue.Say("five minutes earlier, or later")},
			{tongue.Say("keys|Page Down, Page Up"), tongue.Say("an hour earlier, or later")},
			{tongue.Say("keys|Home, End"), tongue.Say("the beginning of the day, or its end")},
		}},
		{tongue.Say("People: what is cleared"), []KeyLine{
			{tongue.Say("keys|Arrows"), tongue.Say("another cell")},
			{tongue.Say("keys|Page Up, Page Down"), tongue.Say("a screen of rows up, or down")},
			{tongue.Say("keys|Home, End"), tongue.Say("the first column, or the last")},
			{tongue.Say("keys|Enter"), tongue.Say("opens its release")},
		}},
		{tongue.Say("People: signing"), []KeyLine{
			{tongue.Say("keys|Backspace"), tongue.Say("takes the last stroke away")},
			{tongue.Say("keys|Delete"), tongue.Say("takes the whole signature away")},
		}},
	}
}
