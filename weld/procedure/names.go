package procedure

// namer is a value of the trade's vocabulary.
type namer interface {
	comparable
	String() string
}

// name returns the word of a value, empty for the zero value.
func name[T namer](v T) string {
	var none T
	if v == none {
		return ""
	}
	return v.String()
}

// names returns the words of a list.
func names[T namer](list []T) []string {
	var out []string
	for _, v := range list {
		out = append(out, v.String())
	}
	return out
}

// single returns a list of one, or of none for an empty text.
func single(s string) []string {
	if s == "" {
		return nil
	}
	return []string{s}
}
