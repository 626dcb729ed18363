package service

// EngineVersion names the code that answers, in every answer.
const EngineVersion = "bridletie/0.1.0"
