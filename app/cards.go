package app

import (
	"cmp"

	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/assets"
	"eavelight/plan"
	"eavelight/plan/store"
)

// The files of rate cards, which the page of the price asks for.

// cardSuffixes are the endings of the files of rate cards; the first is given where the user gives none.
var cardSuffixes = []string{".rates", ".yaml", ".yml"}

func (w *Window) starterCard(take func(plan.RateCard)) {
	w.readCard(func() (plan.RateCard, error) {
		c, err := store.DecodeCard(tongue.Say("the starter card"), assets.StarterCard)
		view.SayStarter(&c)
		return c, err
	}, take)
}

// askCard asks for the file of a rate card.
func (w *Window) askCard(take func(plan.RateCard)) {
	w.pick(cardSuffixes, func(path string) { w.openCard(path, take) })
}

func (w *Window) openCard(path string, take func(plan.RateCard)) {
	w.readCard(func() (plan.RateCard, error) {
		c, _, err := store.ReadCard(path)
		return c, err
	}, take)
}

func (w *Window) readCard(read func() (plan.RateCard, error), take func(plan.RateCard)) {
	w.async(func() func() {
		c, err := read()
		return func() {
			if err != nil {
				w.complain(tongue.Say("The rate card was not opened"), err)
				return
			}
			take(c)
		}
	})
}

// saveCard asks where to save a rate card.
func (w *Window) saveCard(c plan.RateCard) {
	ends := func(name string) string { return ended(name, cardSuffixes) }
	w.askWhere(tongue.Say("Save the rate card as"), ends(fileStem(cmp.Or(c.Name, tongue.Say("rate card")))), ends, func(path string, over bool, done func(error)) {
		write := func() error {
			_, err := store.WriteCard(path, c, store.Stamp{})
			return err
		}
		if over {
			write = func() error {
				_, err := store.OverwriteCard(path, c)
				return err
			}
		}
		w.async(func() func() {
			err := write()
			return func() { done(err) }
		})
	}, func() { w.status.SetText(tongue.Say("The rate card is saved.")) })
}
