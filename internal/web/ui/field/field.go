// Package field draws forms that a gloved hand can fill: large fields with the
// unit inside, the message next to the field, and a summary at the top that
// leads to each trouble.
package field

import "strings"

// Error is what is wrong with one field. Msg follows the field's label in a
// sentence, such as "is empty: please give a number".
type Error struct{ Field, Msg string }

// name is the field as a person reads it when its label is not at hand.
func (e Error) name() string {
	words := strings.ReplaceAll(strings.ReplaceAll(e.Field, "-", " "), "_", " ")
	if words == "" {
		return words
	}
	return strings.ToUpper(words[:1]) + words[1:]
}

// Errors are the troubles of one form in the order they were found.
type Errors []Error

// Of returns the message for a field, or nothing.
func (e Errors) Of(name string) string {
	for _, one := range e {
		if one.Field == name {
			return one.Msg
		}
	}
	return ""
}

// FormParams describe a form.
type FormParams struct {
	Action string
	Entry  string // a fresh UUIDv7, see NewEntry; the script puts its own in when the person begins
	Files  bool   // carries files
	Outbox bool   // an entry that may wait on the tablet until the server can be reached
	ID     string
}

// Params describe one field. Name and Label are required.
type Params struct {
	Name, Label string
	ID          string // of the element; Name when empty, so needed when a page has two of a name
	Value       string
	Hint        string // under the label
	Unit        string // inside the field at its right end
	Mode        string // inputmode: decimal, numeric, text
	Type        string // text when empty; date, password, search, tel
	Error       string // as Errors.Of gives it
	Complete    string // autocomplete; off when empty
	Max         int    // letters; 0 for no bound
	Rows        int    // a field of many lines
	Required    bool
	Short       bool // as wide as a number needs
}

func (p Params) kind() string {
	if p.Type == "" {
		return "text"
	}
	return p.Type
}

func (p Params) id() string {
	if p.ID == "" {
		return p.Name
	}
	return p.ID
}

func (p Params) complete() string {
	if p.Complete == "" {
		return "off"
	}
	return p.Complete
}

func (p Params) described() string {
	ids := ""
	if p.Hint != "" {
		ids = p.id() + "-hint"
	}
	if p.Error != "" {
		ids += " " + p.id() + "-error"
	}
	return ids
}

func (p Params) class() string {
	class := "field"
	if p.Error != "" {
		class += " field-wrong"
	}
	if p.Short {
		class += " field-short"
	}
	return class
}

// Option is one of the things a person can choose.
type Option struct {
	Value, Label string
	Hint         string // a few words under the label
	Picked       bool
}

// Pick picks the option of that value, where there is one, and no other.
func Pick(options []Option, value string) []Option {
	for i := range options {
		options[i].Picked = options[i].Value == value
	}
	return options
}

// Values lists what options stand for.
func Values(options []Option) []string {
	list := make([]string, len(options))
	for i, o := range options {
		list[i] = o.Value
	}
	return list
}

// Words are options that say what they stand for, one of them picked, or none.
func Words(words []string, picked string) []Option {
	list := make([]Option, 0, len(words))
	for _, w := range words {
		list = append(list, Option{Value: w, Label: w, Picked: w == picked})
	}
	return list
}
