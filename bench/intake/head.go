package intake

import (
	"regexp"
	"strconv"
	"strings"
)

// role is what a column holds: "x", "r1", "j3", "label"... Roles of the strict
// form have its column names.
type role string

const (
	noRole   role = ""
	roleSkip role = "-" // known and left out, such as a row number
	label    role = "label"
	move     role = "move"
	speed    role = "speed"
	percent  role = "percent"
	blend    role = "blend"
	arc      role = "arc"
	settings role = "settings"
	remark   role = "comment"
)

// turnRole and jointRole name the i-th number, from 0.
func turnRole(i int) role  { return role("r" + strconv.Itoa(i+1)) }
func jointRole(i int) role { return role("j" + strconv.Itoa(i+1)) }

func (r role) isAxis() bool  { return r == "x" || r == "y" || r == "z" }
func (r role) isTurn() bool  { return numberedRole.MatchString(string(r)) && r[0] == 'r' }
func (r role) isJoint() bool { return numberedRole.MatchString(string(r)) && r[0] == 'j' }

var numberedRole = regexp.MustCompile(`^[rj][0-9]+$`)

// index returns the place of a numbered role in its row, from 0.
func (r role) index() int {
	n, _ := strconv.Atoi(string(r[1:]))
	return n - 1
}

// headRoles are the words of heads, without blanks and small.
var headRoles = map[string]role{
	"label": label, "name": label, "point": label, "pointname": label, "pose": label, "position": label,
	"no": roleSkip, "nr": roleSkip, "number": roleSkip, "row": roleSkip, "line": roleSkip, "index": roleSkip, "count": roleSkip,
	"x": "x", "y": "y", "z": "z", "posx": "x", "posy": "y", "posz": "z", "xpos": "x", "ypos": "y", "zpos": "z",
	"positionx": "x", "positiony": "y", "positionz": "z", "xposition": "x", "yposition": "y", "zposition": "z",
	"qw": "qw", "qx": "qx", "qy": "qy", "qz": "qz",
	"quaternionw": "qw", "quaternionx": "qx", "quaterniony": "qy", "quaternionz": "qz",
	"move": move, "movekind": move, "kindofmove": move,
	"speed": speed, "travelspeed": speed, "percent": percent, "percentspeed": percent, "speedpercent": percent,
	"blend": blend, "blendradius": blend,
	"arc": arc, "arconoff": arc, "settings": settings, "settingsset": settings, "set": settings, "setnumber": settings,
	"comment": remark, "comments": remark, "note": remark, "notes": remark, "remark": remark, "remarks": remark,
}

var (
	numberedHead = regexp.MustCompile(`^(j|joint|axis|r)([1-9]|1[0-6])$`)
	turnHead     = regexp.MustCompile(`^(r|rot|turn|turnabout)(x|y|z)$`)
	headUnit     = regexp.MustCompile(`^(.*?)\s*(?:[\[({<]\s*([^\])}>]*?)\s*[\])}>]|[/_,:]\s*([^/_,:\s]+)|\s(?:in\s)?(\S+))$`)
)

// head is a column's head as it was read.
type head struct {
	text string
	role role
	unit string // symbol, "" where none is stated
}

// counts reports whether a head speaks for a line of heads. Label and comment
// do not: lines of words hold them too.
func (h head) counts() bool { return h.role != noRole && h.role != remark && h.role != label }

// readHead reads the words of a head: the role and the unit, if they are known.
func readHead(text string) head {
	h := head{text: text}
	words := strings.TrimSpace(text)
	for _, sp := range []string{"mm/s", "mm/min", "cm/min", "m/min", "m/s", "in/min", "in/s"} {
		if name, found := strings.CutSuffix(strings.TrimRight(words, "])"), sp); found && strings.TrimRight(name, " [(/_") != name {
			h.role, h.unit = roleOf(strings.TrimRight(name, " [(/_")), sp
			return h
		}
	}
	if m := headUnit.FindStringSubmatch(words); m != nil {
		if u, ok := unitWord(m[2] + m[3] + m[4]); ok {
			h.unit, words = u, m[1]
		}
	}
	if h.role = roleOf(words); h.role == speed && h.unit == "%" {
		h.role = percent
	}
	if u, ok := unitWord(words); ok && u == "%" {
		h.role = percent
	}
	return h
}

// roleOf returns the role of a head's words. rx, ry and rz are turns in the
// order in which the columns stand; what they turn about is another question.
func roleOf(words string) role {
	key := strings.ToLower(strings.NewReplacer(" ", "", "_", "", ".", "", "-", "").Replace(words))
	if r, ok := headRoles[key]; ok {
		return r
	}
	if m := numberedHead.FindStringSubmatch(key); m != nil {
		if m[1] == "r" {
			return role("r" + m[2])
		}
		return role("j" + m[2])
	}
	if turnHead.MatchString(key) {
		return "r?"
	}
	return noRole
}
