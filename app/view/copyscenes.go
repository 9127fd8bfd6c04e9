package view

import (
	"encoding/csv"
	"slices"
	"strings"

	"eavelight/plan"
)

// CopyScenes writes scenes as rows of a spreadsheet under the headings that paste knows them by, divided by tabs as a clipboard has
// them. A cell that could not be read again is left empty; no minutes are a nought, for an empty cell stands for what is usual.
func CopyScenes(p *plan.Plan, ids ...plan.ID) string {
	var heads []string
	for _, c := range SceneColumns {
		heads = append(heads, c.Heading())
	}
	rows := [][]string{heads}
	for i := range p.Scenes {
		if s := &p.Scenes[i]; slices.Contains(ids, s.ID) {
			rows = append(rows, sceneCells(p, s))
		}
	}
	if len(rows) == 1 {
		return ""
	}
	var b strings.Builder
	w := csv.NewWriter(&b)
	w.Comma = '\t'
	_ = w.WriteAll(rows) // a builder takes all
	return b.String()
}

func sceneCells(p *plan.Plan, s *plan.Scene) []string {
	cells := make([]string, len(SceneColumns))
	for i, c := range SceneColumns {
		text := c.Text(p, s)
		if text == "" && c.Figure {
			text = "0"
		}
		if _, err := c.Read(p, text); err == nil {
			cells[i] = text
		}
	}
	return cells
}
