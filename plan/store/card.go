package store

import (
	"bytes"

	"eavelight/plan"
)

// ReadCard reads the rate card at path, as Read does a plan.
func ReadCard(path string) (plan.RateCard, Stamp, error) {
	data, stamp, err := readFile(path, cardFile)
	if err != nil {
		return plan.RateCard{}, Stamp{}, err
	}
	c, err := DecodeCard(path, data)
	if err != nil {
		return plan.RateCard{}, Stamp{}, err
	}
	return c, stamp, nil
}

// DecodeCard reads a rate card from data; name stands for the file in its faults.
func DecodeCard(name string, data []byte) (plan.RateCard, error) {
	r, root, err := begin(name, data, cardFile)
	if err != nil {
		return plan.RateCard{}, err
	}
	var c plan.RateCard
	r.read(cardDocument(&c), "", root)
	if err := r.end(func() plan.Problems { return plan.ValidateCard(c) }); err != nil {
		return plan.RateCard{}, err
	}
	return c, nil
}

// EncodeCard writes a rate card as the text of a file, and reads it back as Encode does.
func EncodeCard(c plan.RateCard) ([]byte, error) {
	data, err := layOut(cardDocument(&c).write())
	if err != nil {
		return nil, unsavable(cardFile, err)
	}
	back, err := DecodeCard("", data)
	if err != nil {
		return nil, unsavable(cardFile, err)
	}
	if again, err := layOut(cardDocument(&back).write()); err != nil || !bytes.Equal(data, again) {
		return nil, unsavable(cardFile, errWouldChange)
	}
	return data, nil
}

// WriteCard saves a rate card at path as Write does a plan.
func WriteCard(path string, c plan.RateCard, last Stamp) (Stamp, error) {
	return putCard(path, c, unchanged(last))
}

// OverwriteCard saves a rate card at path whatever stands there, as Overwrite does a plan.
func OverwriteCard(path string, c plan.RateCard) (Stamp, error) {
	return putCard(path, c, func(Stamp) error { return nil })
}

func putCard(path string, c plan.RateCard, allowed func(now Stamp) error) (Stamp, error) {
	data, err := EncodeCard(c)
	if err != nil {
		return Stamp{}, err
	}
	return save{}.put(path, data, cardFile, allowed)
}

func cardDocument(c *plan.RateCard) value {
	return block(append([]field{must(cardFile.key, version{})}, cardFields(c)...)...)
}
