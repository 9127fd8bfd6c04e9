// Package place finds the order and the start times of the scenes of a shooting day that lose the least, and shares the
// scenes of a longer film out among up to three days.
//
// It imports nothing of ours, knows no light and no clock: only slots, sets and whole numbers. Solve searches a day, SolveDays
// several. Judge and JudgeDays recount a placement by plain reading of the rules below and share no code with the search.
// Clash says why a scene does not fit.
//
// # The day
//
// One crew, one scene at a time, so what exists once (a drone, a crane) is never in two places. A scene occupies its set-up
// and, right after, its shooting: [start-Setup, start+Shoot). Right after another with its lighting in its space, it needs no
// set-up. Call is Prepare slots before the first set-up, wrap is PackUp slots after the last scene, or after the meal that
// follows it. Between two scenes come, in this order, the meals, the move of the kit, and the next set-up, with idle slots
// wherever they are of use. A precedence (Scene.After) holds when both scenes are placed.
//
// People: from the end of a scene in one look to the shooting of any later one in another, a person has Change slots,
// whatever the crew does meanwhile. From their first shooting start to their last end are no more than Longest, and they
// shoot no more than Work.
//
// Meals: no stretch from call to a meal, from meal to meal, or to wrap is longer than Meal.Within, and none between two meals
// shorter than Meal.Apart. Since a meal is not waiting, meals without end would make waiting disappear. So the day has no
// more of them than the longest permitted day has whole or part Within beyond the first: ceil(min(Longest,
// Latest-Earliest)/Within) - 1. A meal stands between two scenes; after the last scene one may stand, at once, where the rule
// forces it; before the first scene none.
//
// # The loss
//
// One number made of named parts, see Loss. Light is looked up by shooting start. Waiting is charged for each person and
// slot from the shooting start of their first placed scene to the end of their last, less the slots of shooting they are
// in and less the meals: set-ups, moves and idle slots are waiting. Moves are charged by slot on top. Length is charged by
// slot from call to wrap, and overtime by the whole of it, as a table says. A scene left out costs its price, and nobody is
// waited for on its account. A day with nothing placed has no length and no loss but the prices.
//
// # How Solve works
//
// After some scenes, all that matters of the past is: which scenes are left, which of the people seen so far are in a scene
// still to come (they are the ones waiting, whatever the order was), what the last scene left behind (where the kit is, what
// lighting stands), and the slot. This is a dynamic programme over sets, as used for talent scheduling (Garcia de la Banda,
// Stuckey and Chu 2011), with a clock. What to leave out is decided before the first scene, for it says who is waited for:
// there is one start for each set of scenes worth trying, and from there the ways run together. Only sets that can be reached
// are ever made (at, in sets.go).
//
//  1. First plans (first.go): a narrow walk forward, leaving out what can no longer come; with a Hint, first along that order
//     (follow, in near.go). It gives a loss to beat. Where no scene has more than one start, it goes along the starts, and no further.
//  2. Starts (leave.go): the sets of scenes to place, from the least simple bound up, until the bound reaches that loss. The
//     simple bound comes from parts (bound.go): a few scenes of like windows, solved for every subset as if alone.
//  3. A table without modes (sets.go): every set with a row of cells, one for each slot and number of meals taken. Each
//     step is as short as any step to that scene. Forward, g is the least that can have been lost; a cell is dead
//     when g and an estimate from the parts and from who has to stay reach the loss to beat, or when even the latest
//     possible call breaks the meal rule or the longest day. A set is dropped when a scene left is already too late
//     (Jackson's rule). Backward, h is the least still to be lost. The least g + h of a start bounds every placement.
//  4. A table with modes, over the cells whose g + h is still under the loss to beat: tens of thousands of sets become
//     hundreds or a few thousand.
//  5. Labels (search.go) are exact: they carry when the last meal can have ended, the call, when people with limited hours
//     came, and the number of meals. One dominates another of the same state if it is free no later, has lost no more even
//     after idling as long, and whatever the rules still ask is no worse. A walk keeps a number of labels a layer; when it
//     cut none that could be better, the best is proven.
//  6. Where the walk cut some, the calls are taken apart in two halves (split, in solve.go), each with its own table over the
//     cells that survive in the one before, the least bound first. What a table does not know exactly is the call, and with
//     it the longest day, the overtime and the first stretch; with few calls to tell apart it does, and its bound is nearly
//     always the best loss itself. So the walk is narrow until then. With a single call it is widened instead.
//  7. A day too big for that is first searched nearby (near.go): the order is kept but for a few scenes, and 2 to 6 find the
//     best of all ways to put these. With a loss to beat so much lower, the tables of the whole day are smaller.
//  8. Where people's hours bind, their arrivals are taken apart in halves as well (stays.go).
//
// # Limits
//
// Everything is limited by counts (cells, labels, starts), never by a clock, so the same problem always has the same answer,
// and the memory stays under 1 GiB. A table may be too big when the loss to beat is far above the best. Then
// Solve looks for placements under a lower limit (narrow, in solve.go): with none, the limit is a bound, and with one, the
// best of them is the best of all. What is not proven in the end has the bound of the last limit, of the last whole layer of
// a table, or of the best label cut.
//
// Days of 10, 14 and 20 scenes with windows on a 5-minute grid take some 3, 12 and 60 milliseconds and are proven; days so
// crowded that many scenes are left out take up to some seconds, and not all of those are proven, nor are days of more than
// about 12 scenes with no windows at all.
//
// # Several days
//
// SolveDays (days.go) hands scenes from day to day and places each day by the means above. The days are each proven best for
// the scenes they have, mostly; how the scenes are shared out is searched. The bound comes from prices and knows light and
// length only, so it lies far below where waiting is most of the loss.
//
// Not here: two crews, weather.
package place
