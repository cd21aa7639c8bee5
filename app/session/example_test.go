package session_test

import (
	"fmt"

	"mastwright/app/session"
)

func Example() {
	changed := make(chan struct{}, 1)
	s := session.New(session.Options{Changed: func() {
		select {
		case changed <- struct{}{}: // a window would move this to its own thread
		default:
		}
	}})
	defer s.Close()

	fmt.Println(s.Set("mast.height", "3.5 in"))
	fmt.Println(s.Set("mast.wall", "thick"))
	for !s.Snapshot().Current() {
		<-changed
	}
	n := s.Snapshot()
	fmt.Println(n.Document.Get("mast.height"), n.Document.Get("mast.wall"), "undo:", n.Undo)
	fmt.Println(n.Errors[0].Sentence)
	fmt.Println(len(n.Review.Result.Verdicts), "verdicts")
	// Output:
	// <nil>
	// mast.wall: "thick" is not a number; write one like "12.5 mm"
	// 88.9 mm 2.4 mm undo: Height
	// Wall: "thick" is not a number; write one like "12.5 mm"
	// 14 verdicts
}
