using BenchmarkDotNet.Running;

// dotnet run -c Release --project tests/WireUp.Benchmarks -- --filter '*Name*'
BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
