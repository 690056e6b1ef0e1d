package joint

import (
	_ "embed"
	"slices"
	"strings"

	"pintle/check"
)

// The joint files to start from, with NAME where the joint's name stands.
//
//go:embed starter_turn.toml
var turnText string

//go:embed starter_lever.toml
var leverText string

//go:embed starter_grille.toml
var grilleText string

// Kinds are the kinds of joint file that Starter knows.
func Kinds() []string { return []string{"turn", "lever", "grille"} }

// Starter returns the text of a joint file to start from: every key with its
// unit and how to measure it, and the numbers of an invented figure, so that it
// builds as it stands. Its tables have the name. The error is a
// *check.FieldError for an unknown kind or a name no table can have.
func Starter(kind, name string) (string, error) {
	if reason := tableName(name); reason != "" {
		return "", &check.FieldError{Field: "name", Text: name, Reason: reason, Remedy: NameRemedy(name)}
	}
	texts := []string{turnText, leverText, grilleText}
	i := slices.Index(Kinds(), kind)
	if i < 0 {
		return "", &check.FieldError{
			Field: "kind", Text: kind, Reason: "is not known", Remedy: "use one of " + strings.Join(Kinds(), ", "),
		}
	}
	return strings.ReplaceAll(texts[i], "NAME", name), nil
}
