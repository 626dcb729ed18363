// Package job makes the job sheet of pieces of furniture. It makes a request of
// package service for each part of the sheet and keeps what that answers.
//
// [Run] makes the cutting lists and deals their panels and runs out to the cloths
// (lists.go). Then it works on the parts side by side. There is one for each
// cloth, since its charts come before its plan, its plan before its piping, and
// that before the circles of its buttons (cloth.go, charts.go). There is one each
// for foam, wadding, either foundation and the fire check. Every part makes a
// request of the operation that it stands for, so that it can be asked alone:
// TestJobPartsAreTheSingleAnswers. What is wrong with such a request is the part's
// fault, moved to where the caller can mend it (places.go); what is wrong with the
// caller's own request is in faults.go. The order list is made last, of the parts
// that are answered, by package buying, which knows answers and prices and nothing
// of the sheet. The figures of a workroom go to every part that has none of its
// own (Request in job.go).
package job
