// Package job makes the job sheet of pieces of furniture. It makes a request of
// package service for each part of the sheet and keeps what that answers.
package job
