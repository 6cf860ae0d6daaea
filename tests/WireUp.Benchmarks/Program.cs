using BenchmarkDotNet.Running;
using WireUp.Benchmarks;

// dotnet run -c Release --project tests/WireUp.Benchmarks -- performance
// dotnet run -c Release --project tests/WireUp.Benchmarks -- performance quick
// dotnet run -c Release --project tests/WireUp.Benchmarks -- rails
// dotnet run -c Release --project tests/WireUp.Benchmarks -- trains
// dotnet run -c Release --project tests/WireUp.Benchmarks -- planning
// dotnet run -c Release --project tests/WireUp.Benchmarks -- planning quick
// dotnet run -c Release --project tests/WireUp.Benchmarks -- --filter '*Circuit*'
switch (args)
{
    case ["performance"]:
        Performance.Run(quick: false);
        break;
    case ["performance", "quick"]:
        Performance.Run(quick: true);
        break;
    case ["trains"]:
        TrainTable.Run();
        break;
    case ["planning"]:
        PlanningTable.Run(quick: false);
        break;
    case ["planning", "quick"]:
        PlanningTable.Run(quick: true);
        break;
    case ["rails"]:
        RailTable.Run(quick: false);
        break;
    case ["rails", "quick"]:
        RailTable.Run(quick: true);
        break;
    case ["rails", "stations"]:
        RailTable.Run(quick: false, hard: false);
        break;
    default:
        BenchmarkSwitcher.FromAssembly(typeof(CircuitBenchmarks).Assembly).Run(args);
        break;
}
