package drawing

// A Form is a page to read and to write on: sections below each other.
type Form struct {
	Title, Supplement string
	Mark              string // number and revision
	Sections          []FormSection
}

// A FormSection is lines of text, then a table; either may be empty.
type FormSection struct {
	Title string
	Lines []string
	Table Table
}
