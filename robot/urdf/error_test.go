package urdf_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"seamwright/robot/urdf"
)

// two links and a joint around body, on lines 1 to 3.
func around(body string) string {
	return `<robot name="r"><link name="a"/><link name="b"/>` + "\n" + body + "\n" + `</robot>`
}

// joint is a sound joint of the given type with more inside it.
func joint(kind, more string) string {
	return around(`<joint name="j" type="` + kind + `"><parent link="a"/><child link="b"/>` + more + `</joint>`)
}

func link(body string) string { return `<robot name="r"><link name="a">` + body + `</link></robot>` }

func visual(shape string) string {
	return link(`<visual><geometry>` + shape + `</geometry></visual>`)
}

const sound = `<limit lower="-1" upper="1" effort="5" velocity="2"/>`

func TestParseRefusesInWords(t *testing.T) {
	const kinds = "revolute, continuous, prismatic or fixed"
	const shapes = "one of <box>, <cylinder>, <sphere>, <mesh>"
	rows := []struct{ name, file, want string }{
		{"empty", "", `t.urdf:1:1: file: found no element; allowed: one <robot> element; to mend: choose a URDF file`},
		{"broken", "<robot name='r'><link", `t.urdf:1:22: file: found broken XML: unexpected EOF; allowed: well-formed XML in UTF-8; to mend: correct the file at this place`},
		{"unclosed", "<robot name='r'>\n<link name='a'>\n</robot>", `t.urdf:3:9: file: found broken XML: element <link> closed by </robot>; allowed: well-formed XML in UTF-8; to mend: correct the file at this place`},
		{"bare ampersand", "&\n", `t.urdf:1:1: file: found broken XML: invalid character entity & (no semicolon); allowed: well-formed XML in UTF-8; to mend: correct the file at this place`},
		{"other root", "<sdf/>", `t.urdf:1:1: file: found root element <sdf>; allowed: <robot>; to mend: choose a URDF file`},
		{"two roots", link("") + "<x/>", `t.urdf:1:47: file: found a second root element <x>; allowed: one <robot> element; to mend: keep one robot in a file`},
		{"no name", `<robot><link name="a"/></robot>`, `t.urdf:1:1: robot name: found none; allowed: a name; to mend: add name="..."`},
		{"empty name", `<robot name="r"><link name=""/></robot>`, `t.urdf:1:17: link name: found ""; allowed: a name that is not empty; to mend: give it a name`},
		{"no link", `<robot name="r"></robot>`, `t.urdf:1:1: robot: found no link; allowed: at least one link; to mend: choose a URDF file with links`},
		{"attribute twice", `<robot name="r"><link name="a" name="b"/></robot>`, `t.urdf:1:17: <link> name: found the attribute twice; allowed: each attribute once; to mend: delete one of them`},
		{"link twice", around(`<link name="a"/>`), `t.urdf:2:1: link "a": found the name again, first on line 1; allowed: each link name once; to mend: rename or delete one of the two` + "\n" +
			`t.urdf:1:33: robot: found 2 links without a parent: a, b; allowed: one root link; to mend: connect them with fixed joints or delete the loose ones`},
		{"joint twice", around(`<joint name="j" type="fixed"><parent link="a"/><child link="b"/></joint><joint name="j" type="fixed"/>`),
			`t.urdf:2:73: joint "j": found the name again, first on line 2; allowed: each joint name once; to mend: rename or delete one of the two`},
		{"floating", joint("floating", ""), `t.urdf:2:1: joint "j" type: found "floating"; allowed: ` + kinds + `; to mend: describe the motion with one joint for each direction, or make it fixed`},
		{"planar", joint("planar", ""), `t.urdf:2:1: joint "j" type: found "planar"; allowed: ` + kinds + `; to mend: describe the motion with one joint for each direction, or make it fixed`},
		{"unknown type", joint("hinge", ""), `t.urdf:2:1: joint "j" type: found "hinge"; allowed: ` + kinds + `; to mend: use one of these words`},
		{"no type", around(`<joint name="j"><parent link="a"/><child link="b"/></joint>`), `t.urdf:2:1: joint "j" type: found none; allowed: ` + kinds + `; to mend: add type="..."`},
		{"mimic", joint("revolute", sound+`<mimic joint="k"/>`), `t.urdf:2:121: joint "j" mimic: found a joint that copies another; allowed: joints that move on their own; to mend: make the joint fixed at its usual value, or remove it with its links`},
		{"no limit", joint("revolute", ""), `t.urdf:2:1: joint "j" limit: found none; allowed: lower, upper, effort and velocity of a revolute joint; to mend: add <limit lower="..." upper="..." effort="..." velocity="..."/>`},
		{"no lower", joint("prismatic", `<limit upper="1" effort="5" velocity="2"/>`), `t.urdf:2:69: joint "j" limit lower: found none; allowed: a finite number, m; to mend: add lower="..."`},
		{"limits crossed", joint("revolute", `<limit lower="2" upper="1" effort="5" velocity="2"/>`), `t.urdf:2:68: joint "j" limit: found lower 2, upper 1; allowed: lower below upper, rad; to mend: exchange the two`},
		{"negative velocity", joint("revolute", `<limit lower="0" upper="1" effort="5" velocity="-2"/>`), `t.urdf:2:68: joint "j" limit velocity: found -2; allowed: 0 or a number above 0, rad/s; to mend: remove the sign`},
		{"not a number", joint("revolute", `<limit lower="0" upper="1deg" effort="5" velocity="2"/>`), `t.urdf:2:68: joint "j" limit upper: found "1deg"; allowed: a finite number, rad; to mend: write plain decimal numbers`},
		{"infinite", joint("revolute", `<limit lower="-inf" upper="1" effort="5" velocity="2"/>`), `t.urdf:2:68: joint "j" limit lower: found "-inf"; allowed: a finite number, rad; to mend: write plain decimal numbers`},
		{"two numbers of three", joint("fixed", `<origin xyz="1 2"/>`), `t.urdf:2:65: joint "j" origin xyz: found "1 2"; allowed: 3 finite numbers, m; to mend: write plain decimal numbers`},
		{"misspelt axis", joint("revolute", sound+`<axsi xyz="0 0 1"/>`), `t.urdf:2:121: joint "j": found <axsi>; allowed: an element of a name that is known, or of another altogether; to mend: did you mean <axis>?`},
		{"no axis", joint("revolute", sound+`<axis xyz="0 0 0"/>`), `t.urdf:2:121: joint "j" axis xyz: found 0 0 0; allowed: a direction of length 0.000001 to 1000000; to mend: use a unit direction such as 0 0 1`},
		{"axis without xyz", joint("revolute", sound+`<axis/>`), `t.urdf:2:121: joint "j" axis xyz: found none; allowed: 3 finite numbers, a direction; to mend: add xyz="..."`},
		{"two axes", joint("revolute", sound+`<axis xyz="0 0 1"/><axis xyz="0 1 0"/>`), `t.urdf:2:140: joint "j": found a second <axis>; allowed: at most one; to mend: delete one of them`},
		{"no parent", around(`<joint name="j" type="fixed"><child link="b"/></joint>`), `t.urdf:2:1: joint "j" parent: found none; allowed: a link name; to mend: add <parent link="..."/>`},
		{"child without link", around(`<joint name="j" type="fixed"><parent link="a"/><child/></joint>`), `t.urdf:2:48: joint "j" child link: found none; allowed: a link name; to mend: add link="..."` + "\n" +
			`t.urdf:1:33: robot: found 2 links without a parent: a, b; allowed: one root link; to mend: connect them with fixed joints or delete the loose ones`},
		{"unknown parent", around(`<joint name="j" type="fixed"><parent link="c"/><child link="b"/></joint>`), `t.urdf:2:1: joint "j" parent: found link "c"; allowed: a link of this file; to mend: correct the name or add the link`},
		{"two parents", around(`<joint name="j" type="fixed"><parent link="a"/><child link="b"/></joint><joint name="k" type="fixed"><parent link="a"/><child link="b"/></joint>`),
			`t.urdf:2:73: joint "k" child: found link "b", which joint "j" already moves; allowed: one parent for each link; to mend: delete one of the two joints`},
		{"loop", around(`<joint name="j" type="fixed"><parent link="a"/><child link="b"/></joint><joint name="k" type="fixed"><parent link="b"/><child link="a"/></joint>`),
			`t.urdf:1:1: robot: found no link without a parent; allowed: one root link; to mend: cut the loop: every link is some joint's child` + "\n" +
				`t.urdf:2:73: robot: found a loop through link "a"; allowed: links that form a tree; to mend: cut the loop at one joint`},
		{"no geometry", link(`<visual/>`), `t.urdf:1:32: link "a" visual geometry: found none; allowed: ` + shapes + `; to mend: add a <geometry> element`},
		{"no shape", visual(""), `t.urdf:1:40: link "a" visual geometry: found 0 shapes; allowed: ` + shapes + `; to mend: give each shape a visual or collision element of its own`},
		{"unknown shape", visual(`<cone radius="1"/>`), `t.urdf:1:50: link "a" visual geometry cone: found <cone>; allowed: ` + shapes + `; to mend: describe the shape with one of these`},
		{"flat box", visual(`<box size="1 0 2"/>`), `t.urdf:1:50: link "a" visual geometry box size: found 1 0 2; allowed: 3 numbers above 0, m; to mend: give the true size`},
		{"no size", visual(`<box/>`), `t.urdf:1:50: link "a" visual geometry box size: found none; allowed: 3 finite numbers, m; to mend: add size="..."`},
		{"no radius", visual(`<cylinder length="1"/>`), `t.urdf:1:50: link "a" visual geometry cylinder radius: found none; allowed: a finite number, m; to mend: add radius="..."`},
		{"no ball", visual(`<sphere radius="-1"/>`), `t.urdf:1:50: link "a" visual geometry sphere radius: found -1; allowed: a number above 0, m; to mend: give the true size`},
		{"no mesh", visual(`<mesh/>`), `t.urdf:1:50: link "a" visual geometry mesh filename: found none; allowed: a file name; to mend: add filename="..."`},
		{"zero scale", visual(`<mesh filename="a.stl" scale="1 1 0"/>`), `t.urdf:1:50: link "a" visual geometry mesh scale: found 1 1 0; allowed: 3 numbers that are not 0, dimensionless; to mend: use 1 1 1 for metres, 0.001 0.001 0.001 for millimetres`},
		{"colour of 255", link(`<visual><geometry><sphere radius="1"/></geometry><material name="m"><color rgba="255 0 0 1"/></material></visual>`),
			`t.urdf:1:100: link "a" visual material color rgba: found "255 0 0 1"; allowed: 4 finite numbers, each 0 to 1; to mend: divide values of 0 to 255 by 255`},
		{"two colours", around(`<material name="m"><color rgba="1 0 0 1"/></material><material name="m"><color rgba="0 1 0 1"/></material><joint name="j" type="fixed"><parent link="a"/><child link="b"/></joint>`),
			`t.urdf:2:54: material name: found "m" again with other values; allowed: one meaning for each material name; to mend: rename one of the two`},
		{"xacro element", `<robot name="r" xmlns:xacro="http://www.ros.org/wiki/xacro"><link name="a"/><xacro:arm/></robot>`,
			`t.urdf:1:77: <xacro:arm>: found a xacro element; allowed: plain URDF; to mend: run the file through xacro and give its output`},
		{"xacro expression", `<robot name="r"><link name="${prefix}a"/></robot>`,
			`t.urdf:1:17: <link> name: found "${prefix}a"; allowed: plain values, no ${...} or $(...); to mend: run the file through xacro and give its output`},
		{"too deep", `<robot name="r">` + strings.Repeat("<a>", 40), `t.urdf:1:110: <a>: found elements nested more than 32 deep; allowed: at most 32 levels; to mend: choose a URDF file`},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			_, err := urdf.Parse(strings.NewReader(row.file), "t.urdf")
			if err == nil {
				t.Fatal("accepted")
			}
			if err.Error() != row.want {
				t.Errorf("got\n%s\nwant\n%s", err, row.want)
			}
		})
	}
}

// All problems of a file come at once, in the order of the file.
func TestParseReportsAllProblemsTogether(t *testing.T) {
	_, err := urdf.Parse(strings.NewReader(around(
		`<joint name="j" type="revolute"><parent link="a"/><child link="x"/><axis xyz="0 0 zero"/><limit lower="1" upper="0" velocity="1" effort="-1"/></joint>`)), "t.urdf")
	var bad *urdf.Error
	if !errors.As(err, &bad) {
		t.Fatalf("error is %T", err)
	}
	var fields []string
	for _, p := range bad.Problems {
		fields = append(fields, fmt.Sprintf("%d:%d %s", p.Line, p.Column, p.Field))
	}
	want := `2:68 joint "j" axis xyz|2:90 joint "j" limit|2:90 joint "j" limit effort|2:1 joint "j" child|1:33 robot`
	if got := strings.Join(fields, "|"); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

func TestParseNotes(t *testing.T) {
	rows := []struct{ name, file, want string }{
		{"velocity 0", joint("revolute", `<limit lower="0" upper="1" effort="5" velocity="0"/>`), `2:68: joint "j" limit velocity: found 0; allowed: a number above 0, rad/s; to mend: add the joint's greatest speed`},
		{"no velocity", joint("prismatic", `<limit lower="0" upper="1" effort="5"/>`), `2:69: joint "j" limit velocity: found none; allowed: a number above 0, m/s; to mend: add the joint's greatest speed`},
		{"no effort", joint("revolute", `<limit lower="0" upper="1" velocity="5"/>`), `2:68: joint "j" limit effort: found none; allowed: a number above 0, N m; to mend: add the joint's greatest torque or force`},
		{"cannot move", joint("revolute", `<limit lower="1" upper="1" effort="5" velocity="2"/>`), `2:68: joint "j" limit: found lower 1, upper 1; allowed: lower below upper, rad; to mend: make the joint fixed if it cannot move`},
		{"range of a continuous joint", joint("continuous", `<limit lower="1" effort="5" velocity="2"/>`), `2:70: joint "j" limit lower: found "1"; allowed: none on a continuous joint; to mend: make the joint revolute if it has end stops, the value is not read`},
		{"misspelt", joint("revolute", `<limit lower="0" upper="1" effort="5" velocity="2" velocty="3"/>`), `2:68: joint "j" limit velocty: found "3"; allowed: attributes of plain URDF; to mend: check its spelling, it is not read`},
		{"no colour", link(`<visual><geometry><sphere radius="1"/></geometry><material name="m"/></visual>`), `1:81: material "m": found no colour and no texture in the file; allowed: a colour for each material; to mend: nothing, the shape is drawn in a default colour`},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			r, err := urdf.Parse(strings.NewReader(row.file), "t.urdf")
			if err != nil {
				t.Fatal(err)
			}
			if len(r.Notes) != 1 || r.Notes[0].String() != row.want {
				t.Errorf("got  %v\nwant %s", r.Notes, row.want)
			}
		})
	}
}

func TestParseBoundsItsInput(t *testing.T) {
	big := `<robot name="r"><link name="a"/><!--` + strings.Repeat("x", 17<<20) + `--></robot>`
	if _, err := urdf.Parse(strings.NewReader(big), "big"); err == nil || !strings.Contains(err.Error(), "more than 16777216 bytes") {
		t.Errorf("17 MiB: %v", err)
	}
	many := `<robot name="r">` + strings.Repeat(`<a/>`, 200_001)
	if _, err := urdf.Parse(strings.NewReader(many), "many"); err == nil || !strings.Contains(err.Error(), "more than 200000 elements") {
		t.Errorf("many elements: %v", err)
	}
	wrong := `<robot name="r">` + strings.Repeat(`<link/>`, 250) + `</robot>`
	var bad *urdf.Error
	if _, err := urdf.Parse(strings.NewReader(wrong), "wrong"); !errors.As(err, &bad) || len(bad.Problems) != 100 || bad.More < 150 {
		t.Errorf("many problems: %v", err)
	}
}
