package joint

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"time"
	"unicode"

	"github.com/pelletier/go-toml/v2"

	"pintle/quantity"
)

// namePattern is what may become part of a file name on every system: lower
// case only, since some systems take "Lamp" and "lamp" for the same file.
var namePattern = regexp.MustCompile(`^[a-z0-9]([a-z0-9-]*[a-z0-9])?$`)

const maxName = 40 // characters; leaves room for role and ending in a file name

// tableName says what is wrong with the name of a table, or "".
func tableName(name string) string {
	if namePattern.MatchString(name) && len(name) <= maxName {
		return ""
	}
	return fmt.Sprintf("a name has lower-case letters, digits and hyphens, %d at most", maxName)
}

// materialName says what is wrong with the name of a material, or "".
func materialName(name string) string {
	for _, r := range name {
		if !unicode.IsPrint(r) {
			return "a name has printable characters only"
		}
	}
	if name == "" || len(name) > maxName {
		return fmt.Sprintf("a name has 1 to %d characters", maxName)
	}
	return ""
}

// ValidName returns an error for a name that cannot be a table's or part's.
func ValidName(name string) error {
	if reason := tableName(name); reason != "" {
		return errors.New(reason)
	}
	return nil
}

// NameRemedy says what to write for a name that cannot be a table's or part's:
// what it comes to in lower case, without an ending and with hyphens for the rest.
func NameRemedy(name string) string {
	words := strings.FieldsFunc(strings.TrimSuffix(strings.ToLower(name), ".toml"), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9')
	})
	if near := strings.Join(words, "-"); tableName(near) == "" {
		return "write " + near
	}
	return "choose another name, such as owl-head"
}

// Nearest returns the known word that differs least from the given one, and
// whether it is near enough to be meant: by a third of its letters or fewer.
func Nearest(word string, known []string) (string, bool) {
	if len(word) > 2*maxName {
		return "", false
	}
	best, distance := "", 1+(len(word)+1)/3
	for _, candidate := range known {
		if d := editDistance(word, candidate); d < distance {
			best, distance = candidate, d
		}
	}
	return best, best != ""
}

// editDistance counts the letters to insert, delete, replace or swap with their
// neighbour (Damerau 1964, Levenshtein 1966); d[i][j] is that of the first i
// letters of a and the first j of b.
func editDistance(a, b string) int {
	d := make([][]int, len(a)+1)
	for i := range d {
		d[i] = make([]int, len(b)+1)
		d[i][0] = i
	}
	for j := range d[0] {
		d[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			d[i][j] = min(d[i-1][j]+1, d[i][j-1]+1, d[i-1][j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(a)][len(b)]
}

// describe names the TOML type of a value.
func describe(v any) string {
	switch v.(type) {
	case string:
		return "a text"
	case int64:
		return "a number"
	case float64:
		return "a number with a point"
	case bool:
		return "true or false"
	case []any:
		return "a list"
	case map[string]any:
		return "a table"
	case time.Time, toml.LocalDate, toml.LocalTime, toml.LocalDateTime:
		return "a date"
	}
	return "this"
}

func remedyOf(err error) string {
	var e *quantity.Error
	if errors.As(err, &e) {
		return e.Remedy
	}
	return ""
}
