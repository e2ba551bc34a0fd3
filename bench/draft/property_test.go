package draft_test

import (
	"testing"

	"pgregory.net/rapid"

	"seamwright/bench/draft"
	"seamwright/bench/intake"
)

// Whatever points are called and whatever the job is called, the document can
// be read, and says the same.
func TestAnyLabelCanBeWritten(t *testing.T) {
	in := input(t, rows("home", "W1 in", "W1 start", "W1 end", "W1 out"), known("seams", "one", "home", "home"))
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.StringOfN(rapid.RuneFrom([]rune("aZ09 :#,'\"[]{}&*!|>%@`-?~.\\/ü汉")), 1, 12, -1)
		labels := map[string]bool{"home": true}
		this := in
		this.Answers = draft.Answers{}
		for id, a := range in.Answers {
			this.Answers[id] = a
		}
		this.Points = append([]intake.Point{}, in.Points...)
		for i := 1; i < len(this.Points); i++ {
			label := "P" + text.Draw(rt, "label")
			for labels[label] {
				label += "x"
			}
			labels[label] = true
			this.Points[i].Label = label
		}
		this.Answers["name"] = draft.Answer{Value: "J " + text.Draw(rt, "name")}
		this.Answers["home"] = draft.Answer{Value: "home"}
		d, open := draft.Document{}, []draft.Question{{}}
		for len(open) > 0 {
			var err error
			if d, open, err = draft.Make(this); err != nil {
				rt.Fatal(err)
			}
			for _, q := range open {
				value := weld[q.ID]
				if _, part, ok := cutSeam(q.ID); value == "" && ok {
					value = weld["."+part]
				}
				if c, ok := q.Proposed(); ok {
					value = c.Value
				} else if value == "" {
					value = q.Choices[0].Value
				}
				this.Answers[q.ID] = draft.Answer{Value: value}
			}
		}
		j, err := decode(t, d, nil)
		if err != nil {
			rt.Fatalf("%v\n%s", err, d.Files[0].Data)
		}
		for i, p := range j.Points {
			if want := oneBlank(this.Points[i].Label); p.Label != want {
				rt.Fatalf("label %q, want %q", p.Label, want)
			}
		}
	})
}
