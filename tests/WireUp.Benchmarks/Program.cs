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
// dotnet run -c Release --project tests/WireUp.Benchmarks -- faults run FOLDER single 0 500
// dotnet run -c Release --project tests/WireUp.Benchmarks -- faults put FOLDER
// dotnet run -c Release --project tests/WireUp.Benchmarks -- faults tell FOLDER
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
        FaultTable.Run("artifacts/fault-trials");
        break;
    case ["faults", "quick"]:
        FaultTable.Quick();
        break;
    case ["faults", "run", string folder, string kind, string from, string to]:
        FaultTable.Run(folder, TrialKind.Of(kind), int.Parse(from, CultureInfo.InvariantCulture), int.Parse(to, CultureInfo.InvariantCulture));
        break;
    case ["faults", "put", string folder]:
        FaultTable.Put(folder);
        break;
    case ["faults", "tell", string folder]:
        FaultTable.Tell(folder);
        break;
    default:
        BenchmarkSwitcher.FromAssembly(typeof(RailTable).Assembly).Run(args);
        break;
}
