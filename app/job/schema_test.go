package job

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

const schemaFile = "../../assets/schema/armscribe-job.json"

func TestSchemaFileIsInStep(t *testing.T) {
	want, err := os.ReadFile(schemaFile)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(want, Schema()) {
		t.Errorf("the tables say otherwise; look at the difference and keep it: armcalc schema > %s", strings.TrimPrefix(schemaFile, "../../"))
	}
}

// judge applies the part of JSON Schema that is in use, and reports the first
// place that does not fit.
func judge(root, schema map[string]any, n *yaml.Node, at string) error {
	if ref, ok := schema["$ref"].(string); ok {
		def, ok := root["$defs"].(map[string]any)[strings.TrimPrefix(ref, "#/$defs/")].(map[string]any)
		if !ok {
			return fmt.Errorf("%s: nothing at %s", at, ref)
		}
		return judge(root, def, n, at)
	}
	if list, ok := schema["anyOf"].([]any); ok {
		var err error
		for _, one := range list {
			if err = judge(root, one.(map[string]any), n, at); err == nil {
				return nil
			}
		}
		return err
	}
	if words, ok := schema["enum"].([]any); ok {
		if !slices.Contains(words, any(n.Value)) {
			return fmt.Errorf("%s: %s is not in %v", at, n.Value, words)
		}
		return nil
	}
	kind := map[string]string{"!!str": "string", "!!int": "number", "!!float": "number", "!!bool": "boolean", "!!map": "object", "!!seq": "array"}[n.ShortTag()]
	switch want := schema["type"].(type) {
	case string:
		if kind != want {
			return fmt.Errorf("%s: is a %s, not a %s", at, kind, want)
		}
	case []any:
		if !slices.Contains(want, any(kind)) {
			return fmt.Errorf("%s: is a %s, not one of %v", at, kind, want)
		}
	default:
		return fmt.Errorf("%s: the schema has no type", at)
	}
	switch kind {
	case "object":
		return judgeObject(root, schema, n, at)
	case "array":
		for i, item := range n.Content {
			if err := judge(root, schema["items"].(map[string]any), item, fmt.Sprintf("%s[%d]", at, i)); err != nil {
				return err
			}
		}
	}
	return nil
}

func judgeObject(root, schema map[string]any, n *yaml.Node, at string) error {
	if schema["additionalProperties"] != false {
		return fmt.Errorf("%s: takes any key", at)
	}
	properties := schema["properties"].(map[string]any)
	for i := 0; i < len(n.Content); i += 2 {
		key := n.Content[i].Value
		about, ok := properties[key].(map[string]any)
		if !ok {
			return fmt.Errorf("%s: no key %s", at, key)
		}
		if err := judge(root, about, n.Content[i+1], join(at, key)); err != nil {
			return err
		}
	}
	for _, key := range schema["required"].([]any) {
		if k, _ := find(n, key.(string)); k == nil {
			return fmt.Errorf("%s: lacks %s", at, key)
		}
	}
	return nil
}

func judged(t *testing.T, text string) error {
	t.Helper()
	var schema map[string]any
	if err := json.Unmarshal(Schema(), &schema); err != nil {
		t.Fatal(err)
	}
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	return judge(schema, schema, doc.Content[0], "")
}

// What the program reads the schema takes, and it finds what is no job.
func TestSchemaTakesWhatIsRead(t *testing.T) {
	var files []string
	for _, pattern := range []string{"../../testdata/job/*.yaml", "../../assets/demo/*.yaml", "../../testdata/armcalc/*.yaml"} {
		more, err := filepath.Glob(pattern)
		if err != nil || len(more) == 0 {
			t.Fatalf("no files %s (%v)", pattern, err)
		}
		files = append(files, more...)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := judged(t, string(data)); err != nil {
			t.Errorf("%s: %v", file, err)
		}
	}
	for name, want := range map[string]string{
		"unknown-key": "no key colour", "missing-point": "lacks", "a-list": "is a array", "no-format": "lacks armscribe", "missing-variants": "lacks variants",
	} {
		data, err := os.ReadFile("../../testdata/job/bad/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		if err := judged(t, string(data)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", name, err, want)
		}
	}
}
