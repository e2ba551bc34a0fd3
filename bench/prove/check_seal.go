package prove

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"strings"
)

// seal checks that no file was changed since the plan was made: those of the folder,
// and those that the job is made from. It says nothing where somebody changed a file
// and made the sums again; everything else in this package does.
func (p *proof) seal() {
	own := atMost("files of the folder as they were written", "", 1)
	inputs := atMost("files of the job as they were planned", "", 1)
	defer func() { p.add(own, inputs) }()
	s := p.plan.Seal
	if sumWithout(p.folder.text, s.Plan) != s.Plan {
		own.fail(place{what: planName}, "%s was changed since it was written", planName)
	}
	own.pass()
	if n := len(p.plan.Findings); s.Findings != n {
		own.fail(place{what: planName}, "sealed with %d findings, it has %d", s.Findings, n)
	}
	listed := map[string]bool{}
	for _, f := range s.Files {
		listed[f.File] = true
		data, err := p.folder.files(f.File)
		switch {
		case err != nil:
			own.fail(place{what: cut(f.File)}, "%s cannot be read: %v", cut(f.File), err)
		case sumOf(data) != f.SHA256:
			own.fail(place{what: cut(f.File)}, "%s was changed since it was written", cut(f.File))
		default:
			own.pass()
		}
	}
	for _, name := range []string{stepsName, traceName, findingsName} {
		if !listed[name] {
			own.fail(place{what: name}, "%s is not sealed", name)
		}
	}
	p.sealInputs(inputs)
}

// sealInputs holds the files that the job is made from against those that it was
// planned from.
func (p *proof) sealInputs(m *meter) {
	sums := map[string]string{}
	for _, in := range p.plan.Seal.Inputs {
		sums[in.File] = in.SHA256
	}
	for _, in := range p.job.Inputs {
		sum, had := sums[in.File]
		switch {
		case !had:
			m.fail(place{what: cut(in.File)}, "%s is a file of the job, but was none when it was planned", cut(in.File))
		case sum != hex.EncodeToString(in.SHA256[:]):
			m.fail(place{what: cut(in.File)}, "%s was changed since the job was planned: plan it again", cut(in.File))
		default:
			m.pass()
		}
		delete(sums, in.File)
	}
	for _, in := range p.plan.Seal.Inputs {
		if _, left := sums[in.File]; left {
			m.fail(place{what: cut(in.File)}, "the job was planned from %s, which it does not name any more", cut(in.File))
		}
	}
}

func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// sumWithout is the sum of a text with zeros in place of the last mention of its own
// sum.
func sumWithout(text []byte, own string) string {
	at := bytes.LastIndex(text, []byte(own))
	if len(own) != 2*sha256.Size || at < 0 {
		return ""
	}
	h := sha256.New()
	h.Write(text[:at])
	h.Write([]byte(strings.Repeat("0", len(own))))
	h.Write(text[at+len(own):])
	return hex.EncodeToString(h.Sum(nil))
}
