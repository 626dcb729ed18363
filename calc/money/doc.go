// Package money is an exact amount of a currency of ISO 4217. Amounts are
// decimals and never floating point; what is rounded is rounded to the smallest
// unit of the currency, which is none, a hundredth or a thousandth of it.
package money
