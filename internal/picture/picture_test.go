package picture

import (
	"context"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

var update = flag.Bool("update", false, "write the picture instead of comparing it")

const (
	example = "../../examples/keel-cradle"
	target  = "../../docs/img/example.svg"
)

type inFolder string

func (f inFolder) Open(name string) (io.ReadCloser, error) {
	return os.Open(filepath.Join(string(f), filepath.FromSlash(name)))
}

func planned(t *testing.T) (*job.Job, *plan.Plan) {
	t.Helper()
	j, err := job.Decode("job.yaml", inFolder(example))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), j, nil)
	if err != nil {
		t.Fatal(err)
	}
	return j, p
}

// leads says where the name of each seam stands, pixels from its middle.
var leads = map[string]struct{ x, y float64 }{
	"W1": {-120, -120}, "W2": {-90, -90}, "W3": {125, 75}, "W4": {40, 140}, "W5": {70, 125},
}

// draw makes the picture: the cell with the arm on a seam, and one seam large.
func draw(j *job.Job, p *plan.Plan) *sheet {
	s := &sheet{width: 1280, height: 800, title: "The example job as planned: arm, part, seams and torch targets"}
	s.text(28, 42, "start", "big", j.Name+", as planned")
	s.cellPicture(j, p)
	s.detail(j, p, &p.Seams[2])
	s.legend()
	return s
}

func (s *sheet) cellPicture(j *job.Job, p *plan.Plan) {
	v := view{middle: r3.Vec{X: 0.58, Y: 0, Z: 0.12}, x: 392, y: 452, scale: 560, azimuth: 121, elevate: 31}
	faces := part(j, v.eye())
	weld := &p.Seams[0]
	m := weld.Passes[0].Motion
	at := m.Stations[(m.First+m.Last)/2]
	faces = append(faces, arm(j, p.Cell, &at.Q, v.eye())...)
	faces = append(faces, block(se3.Identity(), r3.Vec{X: -280, Y: -280, Z: -110}, r3.Vec{X: 280, Y: 280, Z: -20.2}, paint{fill: "#8f8a7e", class: "edge"})...)
	for i := range p.Seams {
		faces = append(faces, bead(p, &p.Seams[i], 0.012)...)
		faces = append(faces, targets(&p.Seams[i], 0.1, v.eye())...)
	}
	s.solids(v, faces)
	for i := range p.Seams {
		s.name(v, &p.Seams[i])
	}
}

// name writes a seam's name with what it is, and leads a line to it.
func (s *sheet) name(v view, seam *plan.Seam) {
	x, y := v.at(seam.Geometry.At(seam.Length * 0.5).Origin)
	lead := leads[seam.Name]
	s.addf(`<path class="lead" d="M%s,%s %s,%s"/>`, short(x), short(y), short(x+lead.x), short(y+lead.y))
	s.addf(`<circle cx="%s" cy="%s" r="2.5" fill="#22262b"/>`, short(x), short(y))
	anchor, side := "start", 5.0
	if lead.x < 0 {
		anchor, side = "end", -5.0
	}
	s.text(x+lead.x+side, y+lead.y+5, anchor, "name", seam.Name)
}

// detail draws one seam large, with what hand guiding got wrong.
func (s *sheet) detail(j *job.Job, p *plan.Plan, seam *plan.Seam) {
	const left, top, wide, high = 926, 62, 326, 440
	s.addf(`<clipPath id="detail"><rect x="%d" y="%d" width="%d" height="%d" rx="6"/></clipPath>`, left, top, wide, high)
	s.addf(`<rect class="frame" x="%d" y="%d" width="%d" height="%d" rx="6"/>`, left, top, wide, high)
	s.addf(`<g clip-path="url(#detail)">`)
	middle := seam.Geometry.At(seam.Length / 2).Origin
	v := view{middle: middle, x: left + wide/2, y: top + high*0.64, scale: 1050, azimuth: 140, elevate: 33}
	faces := part(j, v.eye())
	faces = append(faces, bead(p, seam, 0.008)...)
	s.solids(v, append(faces, targets(seam, 0.13, v.eye())...))
	s.addf(`</g>`)
	s.addf(`<rect x="%d" y="%d" width="%d" height="%d" rx="6" fill="none" stroke="#8c887d"/>`, left, top, wide, high)
	y := float64(top + high + 24)
	s.text(left, y, "start", "name", seam.Name+" as taught by hand")
	for i := range seam.Taught {
		t := &seam.Taught[i]
		if t.Role != plan.RoleStart && t.Role != plan.RoleEnd {
			continue
		}
		y += 20
		turn := t.BaseFromTip.R.Z().Angle(t.Wanted.R.Z()) / degree
		s.text(left, y, "start", "small", fmt.Sprintf("%s: %.1f mm off the seam, wire %.0f deg off", t.Role, t.Across*1e3, turn))
	}
}

// legend explains colours and needles.
func (s *sheet) legend() {
	const left, y = 926, 620
	s.text(left, y, "start", "small", "Room to a joint limit or straight wrist, deg")
	s.addf(`<linearGradient id="temper">`)
	most := temper[len(temper)-1].margin
	for _, c := range temper {
		s.addf(`<stop offset="%s" stop-color="%s"/>`, short(c.margin/most*100)+"%", temperOf(c.margin*degree))
	}
	s.addf(`</linearGradient><rect x="%d" y="%d" width="326" height="12" fill="url(#temper)" stroke="#22262b" stroke-width=".7"/>`, left, y+9)
	for i, c := range temper {
		anchor := []string{"start", "middle", "middle", "end"}[i]
		s.text(left+326*c.margin/most, y+36, anchor, "small", fmt.Sprintf("%.0f", c.margin))
	}
	for i, n := range []struct{ fill, class, text string }{
		{"#31434f", "needle", "torch target, as planned"}, {"#fbf7ea", "ghost", "as taught; hair line to where it should be"},
	} {
		at := y + 62 + 24*float64(i)
		s.addf(`<path class="%s" fill="%s" d="M%d,%s l26,-3 v6 Z"/>`, n.class, n.fill, left, short(at-4))
		s.text(left+36, at, "start", "small", n.text)
	}
}

func TestPictureIsCurrent(t *testing.T) {
	got := draw(planned(t)).svg()
	if *update {
		if err := os.WriteFile(target, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	file, err := os.ReadFile(target)
	if err != nil {
		t.Fatal(err)
	}
	if string(file) != got {
		t.Errorf("docs/img/example.svg differs from what the plan gives: run go test ./internal/picture -update and look at it")
	}
}

func TestPictureIsXML(t *testing.T) {
	d := xml.NewDecoder(strings.NewReader(draw(planned(t)).svg()))
	for {
		_, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

func TestNoTextOverlaps(t *testing.T) {
	s := draw(planned(t))
	for i, a := range s.words {
		if a.x0 < 8 || a.x1 > float64(s.width)-8 || a.y0 < 8 || a.y1 > float64(s.height)-8 {
			t.Errorf("%q leaves the sheet", a.text)
		}
		for _, b := range s.words[i+1:] {
			if a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1 {
				t.Errorf("%q lies over %q", a.text, b.text)
			}
		}
	}
}
