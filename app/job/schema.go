package job

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
)

// Schema returns a JSON Schema (draft 2020-12) of the job file, made from the
// tables by which it is read: an editor that knows such schemas completes and
// checks a job while it is typed. What it lets pass the reader may still
// refuse: limits, and which keys go together, are not in it.
func Schema() []byte {
	s := &schemer{named: map[string]bool{}}
	root := s.section(&Job{})
	root = append(object{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"title", fmt.Sprintf("Armscribe job, format %s", Version{Format, Minor})},
	}, root...)
	root = append(root, member{"$defs", s.defs})
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(root); err != nil {
		panic(fmt.Sprintf("job: the schema cannot be written: %v", err))
	}
	return b.Bytes()
}

// object is a JSON object whose keys keep their order.
type object []member

type member struct {
	key   string
	value any
}

// MarshalJSON writes the members in order.
func (o object) MarshalJSON() ([]byte, error) {
	b := []byte("{")
	for i, m := range o {
		key, err := json.Marshal(m.key)
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(m.value)
		if err != nil {
			return nil, err
		}
		if i > 0 {
			b = append(b, ',')
		}
		b = append(append(append(b, key...), ':'), value...)
	}
	return append(b, '}'), nil
}

// schemer collects the sections met, each once.
type schemer struct {
	defs  object
	named map[string]bool
}

// section describes a mapping by its table.
func (s *schemer) section(sec section) object {
	var properties object
	required := []string{}
	for _, f := range sec.fields() {
		about := f.codec.schema(s)
		if f.sample != "" && about.has("type") {
			about = append(about, member{"examples", []any{sampleValue(f.sample)}})
		}
		properties = append(properties, member{f.key, about})
		if f.must {
			required = append(required, f.key)
		}
	}
	return object{{"type", "object"}, {"additionalProperties", false}, {"required", required}, {"properties", properties}}
}

// sampleValue is a number where the file would have one.
func sampleValue(text string) any {
	if plainNumber.MatchString(text) {
		return json.Number(text)
	}
	return text
}

func (o object) has(key string) bool {
	for _, m := range o {
		if m.key == key {
			return true
		}
	}
	return false
}

// refer names a section, and describes it the first time.
func (s *schemer) refer(sec section) object {
	name := strings.ToLower(reflect.TypeOf(sec).Elem().Name())
	if !s.named[name] {
		s.named[name] = true
		at := len(s.defs)
		s.defs = append(s.defs, member{name, nil}) // in the order in which they are met
		s.defs[at].value = s.section(sec)
	}
	return object{{"$ref", "#/$defs/" + name}}
}

var numberOrText = []string{"number", "string"}

func typed(description string) object {
	return object{{"type", numberOrText}, {"description", description}}
}

const (
	lengthHint = "length: a number in the file's units, or text with its unit, as 10 1/2 in"
	angleHint  = "angle: a number in degrees, or text, as 1 1/2 deg"
	slopeHint  = "slope: degrees for each of the file's units, or text, as -0.6 deg/in"
)

func (formatCodec) schema(*schemer) object {
	return typed(fmt.Sprintf("file format, MAJOR or MAJOR.MINOR: up to %s", Version{Format, Minor}))
}

func (textCodec) schema(*schemer) object {
	return object{{"type", []string{"string", "number", "boolean"}}}
}

func (c wordCodec[T]) schema(*schemer) object {
	texts := make([]string, len(c.words))
	for i, w := range c.words {
		texts[i] = w.text
	}
	return object{{"enum", texts}}
}

func (lengthCodec) schema(*schemer) object          { return typed(lengthHint) }
func (optionalCodec) schema(*schemer) object        { return typed(lengthHint) }
func (degreesCodec) schema(*schemer) object         { return typed(angleHint) }
func (optionalDegreesCodec) schema(*schemer) object { return typed(angleHint) }
func (slopeCodec) schema(*schemer) object           { return typed(slopeHint) }
func (ratioCodec) schema(*schemer) object           { return object{{"type", "number"}} }
func (numberCodec) schema(*schemer) object          { return object{{"type", "number"}} }
func (boolCodec) schema(*schemer) object            { return object{{"type", "boolean"}} }
func (c sectionCodec) schema(s *schemer) object     { return s.refer(c.sec) }
func (c photoCodec) schema(s *schemer) object       { return s.refer(c.photo) }

func (variantsCodec) schema(s *schemer) object {
	return object{{"type", "array"}, {"minItems", 1}, {"maxItems", MaxVariants}, {"items", s.refer(&Variant{})}}
}
