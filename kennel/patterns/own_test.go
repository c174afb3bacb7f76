package patterns

import (
	"reflect"
	"testing"
)

// Who changes a pattern, as a kennel's own does, changes it for nobody else.
func TestTheBuiltinPatternsAreTheCallersOwn(t *testing.T) {
	one, other := reflect.ValueOf(builtin(t)), reflect.ValueOf(builtin(t))
	if one.Len() == 0 {
		t.Fatal("no pattern")
	}
	looked := 0
	var apart func(at string, x, y reflect.Value)
	apart = func(at string, x, y reflect.Value) {
		switch x.Kind() {
		case reflect.Map, reflect.Slice, reflect.Pointer:
			if x.Kind() != reflect.Pointer && x.Len() == 0 || x.IsNil() {
				return
			}
			if looked++; x.Pointer() == y.Pointer() {
				t.Errorf("%s is shared", at)
			}
		}
		switch x.Kind() {
		case reflect.Map:
			for _, key := range x.MapKeys() {
				apart(at+" "+key.String(), x.MapIndex(key), y.MapIndex(key))
			}
		case reflect.Slice:
			for i := range x.Len() {
				apart(at, x.Index(i), y.Index(i))
			}
		case reflect.Pointer:
			apart(at, x.Elem(), y.Elem())
		case reflect.Struct:
			for i := range x.NumField() {
				apart(at+" "+x.Type().Field(i).Name, x.Field(i), y.Field(i))
			}
		}
	}
	apart("patterns", one, other)
	if looked < 50 {
		t.Errorf("only %d values could have been shared", looked)
	}
}
