package job

import (
	"seamwright/geom/se3"
	"seamwright/unit"
	"seamwright/weld"
)

// draft is a document while it is read: the job so far, and what still has to
// be resolved against other parts of the document.
type draft struct {
	job      Job
	arm      armDraft
	points   pointsDraft
	members  membersDraft
	home     ref
	settings source
	papers   proceduresDraft
	accepted acceptanceDraft
	learned  learnedDraft
	defaults seamDraft
	sets     []settingsDraft
	seams    []seamDraft
	dist     distortionDraft
	torch    torchDraft
	shapes   shapesDraft
	clear    clearanceDraft
	order    []ref // of welding, by name
	orderAt  Place
}

// maxSeams bounds the seams of one document.
const maxSeams = 1000

// ref is a name that refers to something else, and its place.
type ref struct {
	text string
	at   Place
}

func named(dst *ref, example string) form {
	return placed{text(&dst.text, example), &dst.at}
}

// newDraft returns a draft with every default filled in.
func newDraft(file string) *draft {
	d := &draft{}
	d.job = Job{
		File:  file,
		Arm:   Arm{LimitMargin: DefaultLimitMargin, WristMargin: DefaultWristMargin},
		Torch: Torch{FlangeFromTip: se3.Identity()},
		Cell:  Cell{WorldFromBase: se3.Identity(), WorldFromPart: se3.Identity()},
		Air: Air{Order: OrderListed, TipSpeed: DefaultTipSpeed, JointPercent: DefaultJointPercent,
			TipAcceleration: DefaultTipAcceleration, Out: DefaultOut},
		Heat:      Heat{Ambient: DefaultAmbient},
		Clearance: DefaultClearance(),
	}
	s := &d.defaults.seam
	s.Aim = Aim{Spin: SpinTaught, Tolerance: DefaultTolerance}
	s.TubeOnPlate.Sweep, s.Saddle.Sweep, s.TubeOnPlate.Wall = fullTurn, fullTurn, PlateTubeOutside
	s.Split.TieIn, s.Restart.TieIn = DefaultTieIn, DefaultTieIn
	return d
}

// form is the table of the document.
func (d *draft) form() record {
	j := &d.job
	sets := manyOf(&d.sets, 1, maxSets, "settings sets", (*settingsDraft).form)
	return record{mend: "see the examples for the form of the document", fields: []field{
		need("seamwright", versionOne()),
		need("name", text(&j.Name, "Hopper skirt, left hand")),
		may("part", text(&j.Part, "HS-204 L")),
		may("drawing", text(&j.Drawing, "HS-204 sheet 2")),
		may("revision", text(&j.Revision, "A")),
		need("code", codeForm(&j.Code)),
		need("arm", d.arm.form(&j.Arm)),
		need("torch", d.torch.form(&j.Torch)),
		may("cell", cellForm(&j.Cell)),
		may("air", airForm(&j.Air)),
		need("points", d.points.form()),
		may("members", d.members.form()),
		may("shapes", d.shapes.form()),
		may("clearance", d.clear.form(&j.Clearance)),
		need("home", named(&d.home, "home")),
		need("settings", d.settings.form("settings.yaml", "sets", sets, record{fields: []field{need("sets", sets)}})),
		may("procedure", d.papers.one.table()),
		may("procedures", d.papers.several()),
		may("material", materialForm(&j.Material)),
		may("heat", heatForm(&j.Heat)),
		may("distortion", d.dist.form()),
		may("order", placed{manyOf(&d.order, 1, 0, "seams", func(r *ref) form { return named(r, "W1") }).like("[W2, W1]"), &d.orderAt}),
		may("learned", named(&d.learned.file, "learned.yaml")),
		may("acceptance", d.accepted.form(j)),
		may("defaults", d.defaults.defaultsForm()),
		need("seams", manyOf(&d.seams, 1, maxSeams, "seams", func(s *seamDraft) form {
			*s = d.defaults.copy()
			s.symbolic.code = j.Code
			return s.form()
		})),
	}, check: func(ps *Problems, n node, _ bool) { d.papers.only(ps, n) }}
}

// errless turns a parser with an error into one with a yes or no; the form has
// better words for where it stands.
func errless[T any](parse func(string) (T, error)) func(string) (T, bool) {
	return func(s string) (T, bool) {
		v, err := parse(s)
		return v, err == nil
	}
}

func codeForm(dst *weld.CodeFamily) single {
	return parsed(dst, []string{"iso", "aws"}, errless(weld.ParseCodeFamily))
}

func versionOne() single {
	return single{allowed: "1", example: "1", json: schema{"const": Version}, take: func(s string) *wrong {
		if s != "1" {
			return &wrong{mend: "this program reads form 1 of the document: write 1, or use the program that the document was written for"}
		}
		return nil
	}}
}

// lengths is the form of a list of so many lengths.
func lengths(dst *[]float64, count int, within span) many[float64] {
	return manyOf(dst, count, count, "lengths", func(x *float64) form {
		return quantity(unit.Length, x, within, "0 mm")
	})
}

func cellForm(c *Cell) record {
	return record{at: &c.At, fields: []field{
		may("world_from_base", poseForm(&c.WorldFromBase)),
		may("world_from_part", poseForm(&c.WorldFromPart)),
	}, check: func(_ *Problems, n node, _ bool) { c.HasPart = n.has("world_from_part") }}
}

func airForm(a *Air) record {
	var part float64
	return record{at: &a.At, fields: []field{
		may("tip_speed", quantity(unit.Speed, &a.TipSpeed, airSpeed, "250 mm/s")),
		may("joint_speed", quantity(unit.Ratio, &part, share, "25 percent")),
		may("tip_acceleration", quantity(unit.Acceleration, &a.TipAcceleration, tipAccel, "1000 mm/s2")),
		may("out", quantity(unit.Length, &a.Out, wayOut, "60 mm")),
		may("order", oneOf(&a.Order, OrderListed, OrderShortest)),
	}, check: func(_ *Problems, n node, _ bool) {
		if n.has("joint_speed") {
			a.JointPercent = part / unit.Percent
		}
	}}
}

// source is a part of the document that stands in it or in a file of its own.
type source struct {
	file   ref
	whole  form // of the file
	unread bool // the file could not be read
}

// form is the table of {file: name} or {key: the part itself}.
func (s *source) form(example, key string, inline, whole form) record {
	s.whole = whole
	return record{
		example: "{file: " + example + "}",
		fields:  []field{may("file", named(&s.file, example)), may(key, inline)},
		one:     [][]string{{"file", key}},
	}
}
