package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"pintle/check"
	"pintle/joint"
)

func (env *environment) newExplainCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "explain [CHECK]",
		Short: "Say what a check means, where its limit comes from and what to change; or list all checks",
		Long: "Say what a check means, where its limit comes from and what to change; or list all checks:\n\n" +
			"  pintle explain\n" +
			"  pintle explain tip-thickness",
		Args: atMost(1),

		ValidArgsFunction: checkNames,
		RunE: func(_ *cobra.Command, args []string) error {
			groups := joint.RuleGroups()
			if len(args) == 1 {
				rule, err := joint.RuleNamed(args[0])
				if err != nil {
					return err
				}
				groups = []joint.RuleGroup{{Rules: []check.Rule{rule}}}
			}
			switch {
			case asJSON && len(args) == 1:
				env.printJSON(explanations(groups)[0])
			case asJSON:
				env.printJSON(explanations(groups))
			case len(args) == 1:
				explain(&env.out, groups[0].Rules[0])
			default:
				listRules(&env.out, groups)
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON instead of text")
	return cmd
}

// printJSON prints a value that has no floats JSON cannot hold.
func (env *environment) printJSON(v any) {
	encoder := json.NewEncoder(&env.out)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(v); err != nil {
		panic("pintle: " + err.Error())
	}
}

// listRules gives each check one line below the name of its group.
func listRules(w io.Writer, groups []joint.RuleGroup) {
	for _, group := range groups {
		fmt.Fprintln(w, group.Name)
		rows := make([][]string, len(group.Rules))
		for i, rule := range group.Rules {
			rows[i] = []string{"  " + rule.Name, firstSentence(rule.Meaning)}
		}
		for _, line := range align(rows) {
			fmt.Fprintln(w, line)
		}
	}
}

func firstSentence(text string) string {
	first, _, _ := strings.Cut(text, ". ")
	return strings.TrimSuffix(first, ".")
}

// explain says all that is known of one check.
func explain(w io.Writer, rule check.Rule) {
	row := func(word, text string) {
		if text != "" {
			fmt.Fprint(w, wrapped(fmt.Sprintf("%-9s", word), text))
		}
	}
	fmt.Fprintln(w, rule.Name)
	row("meaning", rule.Meaning)
	row("symbol", rule.Symbol)
	row("unit", rule.Unit)
	row("formula", rule.Formula)
	row("limits", limitsOf(rule))
	row("source", rule.Source)
	row("change", rule.Change)
	row("own", ownLimits(rule))
	row("accept", acceptance(rule))
}

// fixed says whether the limits are numbers, the same for every design. Zero for
// both, as NaN for both, stands where the design sets them.
func fixed(rule check.Rule) bool {
	l := rule.Limit
	return rule.Sense != check.Informs && (l.Caution != 0 || l.Fail != 0) && !(math.IsNaN(l.Caution) && math.IsNaN(l.Fail))
}

func limitsOf(rule check.Rule) string {
	if rule.Sense == check.Informs {
		return "none: it informs, or the formula says when it speaks"
	}
	if !fixed(rule) {
		return "they follow from the design, see the formula"
	}
	side := map[check.Sense]string{check.AtLeast: "below ", check.AtMost: "above "}[rule.Sense]
	var limits []string
	for _, l := range []struct {
		verdict check.Verdict
		value   float64
	}{{check.Caution, rule.Limit.Caution}, {check.Fail, rule.Limit.Fail}} {
		if !math.IsNaN(l.value) {
			limits = append(limits, strings.TrimSpace(string(l.verdict)+" "+side+check.Number(l.value)+" "+rule.Unit))
		}
	}
	return strings.Join(limits, ", ")
}

// ownLimits shows the lines of a joint file that set other limits.
func ownLimits(rule check.Rule) string {
	if rule.Sense == check.Informs || rule.Final {
		return ""
	}
	caution, fail := "NUMBER", "NUMBER"
	if fixed(rule) {
		caution, fail = threshold(rule.Limit.Caution), threshold(rule.Limit.Fail)
	}
	return fmt.Sprintf("other limits in the joint file, %q for no limit:\n[limits]\n%s = { caution = %s, fail = %s }", "none", rule.Name, caution, fail)
}

func threshold(v float64) string {
	if math.IsNaN(v) {
		return `"none"`
	}
	return check.Number(v)
}

func acceptance(rule check.Rule) string {
	if rule.Final {
		return "never: a failure cannot be accepted"
	}
	return fmt.Sprintf("--accept '%s=REASON', or in the joint file:\n[accept]\n%s = \"REASON\"", rule.Name, rule.Name)
}

// wrapped breaks a text into lines of 80 characters and sets all but the first
// in by the width of the head. Line breaks of the text are kept.
func wrapped(head, text string) string {
	const width = 80
	var out strings.Builder
	in := strings.Repeat(" ", utf8.RuneCountInString(head))
	for paragraph := range strings.SplitSeq(text, "\n") {
		line := ""
		for word := range strings.FieldsSeq(paragraph) {
			if line != "" && utf8.RuneCountInString(head+line+" "+word) > width {
				out.WriteString(head + line + "\n")
				head, line = in, ""
			}
			if line != "" {
				line += " "
			}
			line += word
		}
		out.WriteString(head + line + "\n")
		head = in
	}
	return out.String()
}

// An explanation is what --json says of one check. A limit that there is not,
// or that follows from the design, is null.
type explanation struct {
	Check      string   `json:"check"`
	Group      string   `json:"group,omitempty"`
	Symbol     string   `json:"symbol"`
	Unit       string   `json:"unit"`
	Meaning    string   `json:"meaning"`
	Formula    string   `json:"formula"`
	Good       string   `json:"good"` // "at least", "at most" or "informs"
	Caution    *float64 `json:"caution"`
	Fail       *float64 `json:"fail"`
	Acceptable bool     `json:"acceptable"`
	Source     string   `json:"source"`
	Change     string   `json:"change"`
}

func explanations(groups []joint.RuleGroup) []explanation {
	good := map[check.Sense]string{check.AtLeast: "at least", check.AtMost: "at most", check.Informs: "informs"}
	var all []explanation
	for _, group := range groups {
		for _, r := range group.Rules {
			e := explanation{
				Check: r.Name, Group: group.Name, Symbol: r.Symbol, Unit: r.Unit, Meaning: r.Meaning, Formula: r.Formula,
				Good: good[r.Sense], Acceptable: !r.Final, Source: r.Source, Change: r.Change,
			}
			if fixed(r) {
				e.Caution, e.Fail = number(r.Limit.Caution), number(r.Limit.Fail)
			}
			all = append(all, e)
		}
	}
	return all
}

func number(v float64) *float64 {
	if math.IsNaN(v) {
		return nil
	}
	return &v
}
