package job

import (
	"strings"
	"unicode"

	"seamwright/unit"
)

func aimForm(a *Aim) record {
	return record{example: "{travel: push 10 deg}", fields: []field{
		may("work", quantity(unit.Angle, &a.Work, workAngle, "45 deg")),
		may("travel", travelForm(&a.Travel, "push 10 deg")),
		may("spin", spinForm(a)),
		may("offset", quantity(unit.Length, &a.Offset, aimOffset, "0 mm")),
		may("distance", quantity(unit.Length, &a.Distance, tipDistance, "15 mm")),
		may("tolerance", quantity(unit.Angle, &a.Tolerance, tolerance, "5 deg")),
	}, check: func(_ *Problems, n node, _ bool) { a.WorkStated = a.WorkStated || n.has("work") }}
}

// sayWhich is the remedy for a travel angle that leaves its sense open.
const sayWhich = "say push (wire points along the travel) or drag (it points back at the weld) and the angle, such as push 10 deg"

// travelForm reads "push 10 deg", "drag 5 deg" or "0 deg" as an angle, push
// positive.
func travelForm(dst *float64, example string) single {
	var size float64
	angle := quantity(unit.Angle, &size, travelAngle, example)
	angle.allowed = `push or drag with an angle of 0 to 60 deg, or "0 deg"`
	angle.json["description"] = angle.allowed
	bare := angle.take
	angle.take = func(s string) *wrong {
		sense, rest := travelSense(strings.TrimSpace(s))
		if strings.HasPrefix(rest, "-") || strings.HasPrefix(rest, "+") {
			return &wrong{found: quote(s) + ", an angle with a sign", mend: sayWhich}
		}
		if w := bare(rest); w != nil {
			if w.found != "" { // no angle: show the whole, not what is left of it
				w.found, w.mend = quote(s)+strings.TrimPrefix(w.found, quote(rest)), sayWhich
			}
			return w
		}
		if sense == 0 && size != 0 {
			return &wrong{found: quote(s) + ", which does not say which way", mend: sayWhich}
		}
		*dst = sense*size + 0 // no minus zero
		return nil
	}
	return angle
}

// travelSense returns +1 for push, -1 for drag, 0 where the text has neither,
// and the rest of the text.
func travelSense(s string) (sense float64, rest string) {
	if rest, push := strings.CutPrefix(s, "push "); push {
		return 1, strings.TrimSpace(rest)
	}
	if rest, drag := strings.CutPrefix(s, "drag "); drag {
		return -1, strings.TrimSpace(rest)
	}
	return 0, s
}

// spinForm reads "as taught", "free" or an angle.
func spinForm(a *Aim) single {
	angle := quantity(unit.Angle, &a.SpinAngle, wholeTurn, "as taught")
	angle.allowed = "as taught, free or an angle such as 30 deg"
	angle.json["description"] = angle.allowed
	take := angle.take
	angle.take = func(s string) *wrong {
		wish := SpinWish(strings.TrimSpace(s))
		switch {
		case wish == SpinTaught || wish == SpinFree:
			a.Spin, a.SpinAngle = wish, 0
			return nil
		case !strings.ContainsFunc(s, unicode.IsDigit):
			return &wrong{mend: orNearest(s, []string{string(SpinTaught), string(SpinFree)}, "write one of these")}
		}
		a.Spin = SpinFixed
		return take(s)
	}
	return angle
}

// leaveForm reads a point's label or {out: length}.
func leaveForm(l *Leave, label *ref, example string) either {
	word := text(&label.text, example)
	word.allowed = "a point's label"
	take := word.take
	word.take = func(s string) *wrong {
		l.Out = 0
		return take(s)
	}
	return either{word: word, group: record{at: &label.at,
		allowed: "{out: 60 mm}", example: "{out: 60 mm}",
		fields: []field{need("out", quantity(unit.Length, &l.Out, wayOut, "60 mm"))},
		check:  func(*Problems, node, bool) { label.text = "" },
	}}
}
