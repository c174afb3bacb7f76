package desk

import (
	"net/http"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// dogRetireVerb lets the dog leave the string with today.
func dogRetireVerb(_ *form, l look, dog kennel.Dog) dogChange {
	return func(s *book.State, _ *kennel.Dog) (string, error) {
		what, err := s.RetireDog(dog.Name, l.today)
		if in, is := isInput(err); is { // the form has no field that it could stand beside
			return "", &statusError{http.StatusUnprocessableEntity, inputWords(in) + ".", in.Try}
		}
		return what, err
	}
}
