package symbol

import (
	"strings"

	"seamwright/weld"
)

// Tail is what stands in the tail of a symbol, in the order of ISO 2553:
// process, level, position, filler, anything else (order from memory). Empty
// fields are not stated.
type Tail struct {
	Process  weld.Process      // by its ISO 4063 number
	Level    string            // acceptance level, such as "ISO 5817-C"
	Position weld.PositionName // in the words of the symbol's own code family
	Filler   string            // such as "ISO 14341-A-G 42 4 M21 3Si1"
	Note     string            // anything else, such as a procedure's number
}

// Standards by which an entry of a tail is told; from memory.
var (
	levelCodes  = []string{"ISO 5817", "ISO 10042"}
	fillerCodes = []string{"ISO 14341", "ISO 16834", "ISO 14343", "ISO 17632", "ISO 17633", "ISO 18273", "AWS A5"}
)

// String returns the entries with strokes between them, such as
// "135/ISO 5817-C/PB".
func (t Tail) String() string {
	var list []string
	if t.Process != 0 {
		list = append(list, strings.Fields(t.Process.String())[0])
	}
	if t.Level != "" {
		list = append(list, t.Level)
	}
	if t.Position != 0 {
		list = append(list, t.Position.String())
	}
	for _, s := range []string{t.Filler, t.Note} {
		if s != "" {
			list = append(list, s)
		}
	}
	return strings.Join(list, "/")
}

// awsProcesses are the letters that AWS A3.0 has for processes; from memory.
var awsProcesses = map[weld.Process]string{
	weld.MIG: "GMAW", weld.MAG: "GMAW", weld.MetalCored: "GMAW", weld.FluxCored: "FCAW",
	weld.CoveredElectrode: "SMAW", weld.SubmergedArc: "SAW", weld.TungstenArc: "GTAW", weld.PlasmaArc: "PAW",
}

// drawn returns the tail as a drawing of the system has it: AWS names processes
// by letters, ISO by number.
func (t Tail) drawn(system System) string {
	letters := awsProcesses[t.Process]
	if system != AWSA24 || letters == "" {
		return t.String()
	}
	t.Process = 0
	return strings.TrimSuffix(letters+"/"+t.String(), "/")
}

// parseTail reads entries with strokes between them. What is no process, level,
// position or filler is a note; there is room for one.
func parseTail(text string) (Tail, *Error) {
	var t Tail
	for _, entry := range strings.Split(text, "/") {
		entry = strings.Join(strings.Fields(entry), " ")
		process, processErr := weld.ParseProcess(entry)
		position, positionErr := weld.ParsePositionName(entry)
		var full bool
		switch {
		case entry == "":
			return Tail{}, &Error{Name: BadTail, Found: "an empty entry in the tail", Allowed: "process/level/position/filler/note", Mend: "leave the stroke out with the entry"}
		case processErr == nil:
			full = t.Process != 0
			t.Process = process
		case positionErr == nil:
			full = t.Position != 0
			t.Position = position
		case startsWith(entry, levelCodes):
			full = t.Level != ""
			t.Level = entry
		case startsWith(entry, fillerCodes):
			full = t.Filler != ""
			t.Filler = entry
		default:
			full = t.Note != ""
			t.Note = entry
		}
		if full {
			return Tail{}, &Error{Name: BadTail, Found: "a second entry of its kind, " + entry, Allowed: "one process, level, position, filler and note", Mend: "keep one of each"}
		}
	}
	return t, nil
}

// startsWith reports whether text begins with one of the codes.
func startsWith(text string, codes []string) bool {
	for _, c := range codes {
		if strings.HasPrefix(text, c) {
			return true
		}
	}
	return false
}
