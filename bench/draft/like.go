package draft

import (
	"fmt"
	"strings"

	"github.com/goccy/go-yaml"
)

// follow takes over the sections of the job that is followed.
func (m *maker) follow() error {
	if m.Like == nil || m.Arm == nil {
		return nil
	}
	m.followed = map[string]string{}
	for _, name := range []string{"arm", "torch", "cell", "air"} {
		text, err := m.Like.section(name, m.Arm.File)
		if err != nil {
			return err
		}
		m.followed[name] = text
	}
	return nil
}

// section returns a section of the document that is followed, as it is written
// there with its comments; empty where the document has none. The arm's file
// is named from the new document's folder.
func (l *Like) section(name, urdf string) (string, error) {
	lines := strings.Split(strings.ReplaceAll(strings.TrimPrefix(string(l.Text), "\ufeff"), "\r\n", "\n"), "\n")
	if name == "arm" {
		if err := l.rename(lines, urdf); err != nil {
			return "", err
		}
	}
	for i, line := range lines {
		if !strings.HasPrefix(line, name+":") {
			continue
		}
		end := i + 1
		for k := i + 1; k < len(lines) && inside(lines[k]); k++ {
			if strings.TrimSpace(lines[k]) != "" && lines[k][0] != '#' {
				end = k + 1
			}
		}
		return strings.Join(lines[i:end], "\n") + "\n", nil
	}
	return "", nil
}

// inside reports whether a line belongs to the section above it.
func inside(line string) bool {
	return strings.TrimSpace(line) == "" || strings.ContainsAny(line[:1], " #}]")
}

// rename puts the new name of the arm's file in place of the old one.
func (l *Like) rename(lines []string, urdf string) error {
	path, err := yaml.PathString("$.arm.urdf")
	if err != nil {
		return err
	}
	node, err := path.ReadNode(strings.NewReader(strings.Join(lines, "\n")))
	if err != nil {
		return fmt.Errorf("%s: the name of the arm's file cannot be found: %w", l.Name, err)
	}
	at := node.GetToken()
	if row := at.Position.Line - 1; row >= 0 && row < len(lines) {
		before, after, found := strings.Cut(lines[row], at.Value)
		if found && !strings.Contains(after, at.Value) {
			if strings.HasSuffix(before, `"`) || strings.HasSuffix(before, "'") {
				before, after = before[:len(before)-1], after[1:]
			}
			lines[row] = before + quoted(urdf) + after
			return nil
		}
	}
	return fmt.Errorf("%s: the name of the arm's file, %q, cannot be told from what stands beside it: write it on a line of its own", l.Name, at.Value)
}
