using System.Globalization;
using BenchmarkDotNet.Running;
using WireUp.Benchmarks;
using WireUp.Benchmarks.Faults;

// dotnet run -c Release --project tests/WireUp.Benchmarks -- performance
// dotnet run -c Release --project tests/WireUp.Benchmarks -- performance quick
// dotnet run -c Release --project tests/WireUp.Benchmarks -- rails
// dotnet run -c Release --project tests/WireUp.Benchmarks -- trains
// dotnet run -c Release --project tests/WireUp.Benchmarks -- planning
// dotnet run -c Release --project tests/WireUp.Benchmarks -- planning quick
// dotnet run -c Release --project tests/WireUp.Benchmarks -- faults
// dotnet run -c Release --project tests/WireUp.Benchmarks -- faults quick
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
    case ["faults"]:
        FaultTable.Run(1000, isPut: true);
        break;
    case ["faults", "quick"]:
        FaultTable.Run(40, isPut: false);
        break;
    case ["faults", string count]:
        FaultTable.Run(int.Parse(count, CultureInfo.InvariantCulture), isPut: true);
        break;
    default:
        BenchmarkSwitcher.FromAssembly(typeof(RailTable).Assembly).Run(args);
        break;
}
