package coupon

// A section is what the form asks about one kind of piece: rows to read and
// what to try by hand.
type section struct {
	piece, title string
	key          string // of the readings file the rows go to; "" for pieces that are only tried
	hint         string
	block        bool    // rows are the block's: above and on the bed
	flipped      string  // mark of a ring that lay the other way up
	of           float64 // its bore
	rows         []row
	trial        trial
}

type row struct {
	mark  string
	drawn float64
}

func (s *section) add(mark string, drawn float64) { s.rows = append(s.rows, row{mark, drawn}) }

// A trial is what is asked of pieces that are tried: a question for each key of
// the readings file.
type trial []struct{ key, question string }

var (
	ringTrial = trial{
		{"by_hand", "tightest ring that the bearing goes into by hand"},
		{"press", "ring that needs a press, and holds"},
		{"cracks", "loosest ring that cracks (now, or after a day)"},
	}
	gearTrial = trial{
		{"free", "least pair that turns freely"},
		{"rattles", "least pair that rattles"},
	}
	pocketTrial = trial{{"horn", "tightest pocket that takes the horn by hand"}}
	webTrial    = trial{{"least_web", "thinnest web that printed whole"}}
)
