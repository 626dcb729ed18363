package money

// Currency is a currency by its code, as ParseCurrency returns it.
type Currency string

// None is no currency, and the zero value.
const None Currency = ""

// noCode is the code of ISO 4217 for None.
const noCode = "XXX"

// ParseCurrency reads a code such as GBP. XXX, which is none, XTS, which is for
// testing, and codes of funds, metals and units of account are refused.
func ParseCurrency(code string) (Currency, error) {
	if _, ok := decimals(code); !ok {
		return None, ErrCurrency
	}
	return Currency(code), nil
}

// Scale is how many decimals the smallest unit of a currency has: 0, 2 or 3; 0 for
// None.
func Scale(c Currency) int32 {
	n, _ := decimals(string(c))
	return n
}

// Code is the currency by its ISO 4217 code.
func (c Currency) Code() string {
	if c == None {
		return noCode
	}
	return string(c)
}

// decimals are those of the smallest unit, where a code is that of a currency: ISO
// 4217, List One of its maintenance agency (SIX), as published on 2024-06-25, with
// what amendments 176 and 178 change. To follow a later amendment, add or move a code
// here and in the test; a code that ISO withdraws goes to the last case, so that
// requests that name it are still answered.
func decimals(code string) (int32, bool) {
	switch code {
	case "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF":
		return 0, true
	case "BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND":
		return 3, true
	case "AED", "AFN", "ALL", "AMD", "AOA", "ARS", "AUD", "AWG", "AZN", "BAM", "BBD", "BDT", "BGN", "BMD", "BND", "BOB", "BRL", "BSD", "BTN", "BWP",
		"BYN", "BZD", "CAD", "CDF", "CHF", "CNY", "COP", "CRC", "CUP", "CVE", "CZK", "DKK", "DOP", "DZD", "EGP", "ERN", "ETB", "EUR", "FJD", "FKP",
		"GBP", "GEL", "GHS", "GIP", "GMD", "GTQ", "GYD", "HKD", "HNL", "HTG", "HUF", "IDR", "ILS", "INR", "IRR", "JMD", "KES", "KGS", "KHR", "KPW",
		"KYD", "KZT", "LAK", "LBP", "LKR", "LRD", "LSL", "MAD", "MDL", "MGA", "MKD", "MMK", "MNT", "MOP", "MRU", "MUR", "MVR", "MWK", "MXN", "MYR",
		"MZN", "NAD", "NGN", "NIO", "NOK", "NPR", "NZD", "PAB", "PEN", "PGK", "PHP", "PKR", "PLN", "QAR", "RON", "RSD", "RUB", "SAR", "SBD", "SCR",
		"SDG", "SEK", "SGD", "SHP", "SLE", "SOS", "SRD", "SSP", "STN", "SVC", "SYP", "SZL", "THB", "TJS", "TMT", "TOP", "TRY", "TTD", "TWD", "TZS",
		"UAH", "USD", "UYU", "UZS", "VED", "VES", "WST", "XCD", "XCG", "YER", "ZAR", "ZMW", "ZWG":
		return 2, true
	case "ANG", "GWP", "HRK", "SLL", "ZWL": // withdrawn; List Three
		return 2, true
	}
	return 0, false
}
