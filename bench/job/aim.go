package job

import (
	"strings"

	"seamwright/unit"
)

func aimForm(a *Aim) record {
	return record{example: "{travel: push 10 deg}", fields: []field{
		may("work", quantity(unit.Angle, &a.Work, workAngle, "45 deg")),
		may("travel", travelForm(&a.Travel)),
		may("spin", spinForm(a)),
		may("offset", quantity(unit.Length, &a.Offset, aimOffset, "0 mm")),
		may("distance", quantity(unit.Length, &a.Distance, tipDistance, "15 mm")),
		may("tolerance", quantity(unit.Angle, &a.Tolerance, tolerance, "5 deg")),
	}, check: func(_ *Problems, n node, _ bool) { a.WorkStated = a.WorkStated || n.has("work") }}
}

// travelForm reads "push 10 deg", "drag 5 deg" or "0 deg".
func travelForm(dst *float64) single {
	var size float64
	angle := quantity(unit.Angle, &size, travelAngle, "push 10 deg")
	angle.allowed = `push or drag with an angle of 0 to 60 deg, or "0 deg"`
	angle.json["description"] = angle.allowed
	bare := angle.take
	angle.take = func(s string) *wrong {
		s = strings.TrimSpace(s)
		sign, rest := 1.0, s
		if after, push := strings.CutPrefix(s, "push "); push {
			rest = after
		} else if after, drag := strings.CutPrefix(s, "drag "); drag {
			sign, rest = -1, after
		}
		if strings.HasPrefix(rest, "-") || strings.HasPrefix(rest, "+") {
			return &wrong{found: quote(s) + ", an angle with a sign", mend: "say push (wire points along the travel) or drag (it points back at the weld)"}
		}
		if w := bare(rest); w != nil {
			return w
		}
		if rest == s && size != 0 {
			return &wrong{found: quote(s) + ", which does not say which way", mend: "say push (wire points along the travel) or drag (it points back at the weld)"}
		}
		*dst = sign*size + 0 // no minus zero
		return nil
	}
	return angle
}

// spinForm reads "as taught", "free" or an angle.
func spinForm(a *Aim) single {
	angle := quantity(unit.Angle, &a.SpinAngle, wholeTurn, "as taught")
	angle.allowed = "as taught, free or an angle such as 30 deg"
	angle.json["description"] = angle.allowed
	take := angle.take
	angle.take = func(s string) *wrong {
		switch wish := SpinWish(strings.TrimSpace(s)); wish {
		case SpinTaught, SpinFree:
			a.Spin, a.SpinAngle = wish, 0
			return nil
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
