// Package fire checks a stack of upholstery materials against fire rules that
// are held as data: what each rule asks of each layer, whether what is known
// answers it, and what would mend it.
//
// The engine is conservative. A condition is met, not met or unknown, and what
// is unknown never lets a layer pass: the verdict is then that evidence is
// wanted. A rule that rests on memory alone never forbids and never exempts,
// and where it finds its evidence it adds a caution. Nothing here tests a
// material; the papers that the asker says are held are compared with what the
// rules ask for.
//
// The rules lie in the files of the folder rules, one for each jurisdiction,
// and are checked as they are read.
package fire
