package urdf_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// Source: check_urdf of the URDF reference parser (Debian's package
// liburdfdom-tools), which prints the root link and the tree of a file that it
// accepts. The test fails, and does not skip, where the program is missing: a
// check that was not made must not read as passed.
func TestAgreesWithCheckURDF(t *testing.T) {
	files, err := filepath.Glob("testdata/*.urdf")
	if err != nil || len(files) < 4 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			out, err := exec.Command("check_urdf", file).CombinedOutput()
			if err != nil {
				t.Fatalf("check_urdf: %v\n%s\nThis check needs Debian's package liburdfdom-tools: apt-get install liburdfdom-tools", err, out)
			}
			r := parseFile(t, filepath.Base(file))
			text := string(out)
			if !strings.Contains(text, "robot name is: "+r.Name+"\n") || !strings.Contains(text, "root Link: "+r.Root()+" has ") {
				t.Errorf("name %q and root %q are not in\n%s", r.Name, r.Root(), text)
			}
			for _, j := range r.Joints {
				if !strings.Contains(text, "):  "+j.Child+"\n") {
					t.Errorf("child link %q is not in\n%s", j.Child, text)
				}
			}
			if got := strings.Count(text, "):  "); got != len(r.Joints) {
				t.Errorf("%d joints, check_urdf counts %d", len(r.Joints), got)
			}
		})
	}
}

// What check_urdf refuses is refused here too.
func TestRefusesWhatCheckURDFRefuses(t *testing.T) {
	rows := map[string]string{
		"two parents": `<robot name="r"><link name="a"/><link name="b"/><link name="c"/>` +
			`<joint name="j" type="fixed"><parent link="nowhere"/><child link="b"/></joint></robot>`,
		"no limit":  joint("revolute", ""),
		"no root":   around(`<joint name="j" type="fixed"><parent link="a"/><child link="b"/></joint><joint name="k" type="fixed"><parent link="b"/><child link="a"/></joint>`),
		"two roots": around(""),
		"no name":   `<robot><link name="a"/></robot>`,
	}
	for name, text := range rows {
		t.Run(name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "bad.urdf")
			if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
				t.Fatal(err)
			}
			cmd := exec.Command("check_urdf", file)
			out, err := cmd.CombinedOutput()
			if _, ran := err.(*exec.ExitError); err != nil && !ran {
				t.Fatalf("check_urdf: %v\nThis check needs Debian's package liburdfdom-tools: apt-get install liburdfdom-tools", err)
			}
			if err == nil {
				t.Fatalf("check_urdf accepts this file:\n%s", out)
			}
			if _, err := parse(text); err == nil {
				t.Error("accepted")
			}
		})
	}
}
