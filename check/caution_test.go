package check_test

import (
	"fmt"
	"strings"
	"testing"

	"pintle/check"
)

// Every code from C1 on has one text of whole sentences and says when it
// applies; a code beyond them has none.
func TestCautions(t *testing.T) {
	all := check.Cautions()
	if len(all) != 16 {
		t.Fatalf("%d cautions", len(all))
	}
	texts := map[string]bool{}
	for i, c := range all {
		if want := fmt.Sprintf("C%d", i+1); c.Code != want {
			t.Errorf("caution %d has code %s", i+1, c.Code)
		}
		if c.When == "" || !strings.HasSuffix(c.Text, ".") || texts[c.Text] {
			t.Errorf("%s: when %q, text %q", c.Code, c.When, c.Text)
		}
		texts[c.Text] = true
		if got, ok := check.CautionOf(c.Code); !ok || got != c {
			t.Errorf("CautionOf(%s) = %v, %v", c.Code, got, ok)
		}
	}
	if _, ok := check.CautionOf("C17"); ok {
		t.Error("there is a caution C17")
	}
}
