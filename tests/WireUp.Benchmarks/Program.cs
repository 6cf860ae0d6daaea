using BenchmarkDotNet.Running;
using WireUp.Benchmarks;

// dotnet run -c Release --project tests/WireUp.Benchmarks -- smoke
// dotnet run -c Release --project tests/WireUp.Benchmarks -- --filter '*Circuit*'
if (args is ["smoke"])
{
    Smoke.Run();
}
else
{
    BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
}
