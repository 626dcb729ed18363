// Package calendar is a day of the calendar, and a span of days where only a month or
// a year is known. There is no clock in it: a day comes with the request.
package calendar
