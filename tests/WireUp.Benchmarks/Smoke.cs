using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using WireUp.Circuits;
using WireUp.Circuits.Network;
using WireUp.Circuits.Numerics;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Benchmarks;

/// <summary>
/// A look at the speed in a minute: the best of a few runs (others may use the machine), and where the simulator ngspice is installed how many times faster one
/// operating point is than its own analysis time. Figures are printed, nothing is asserted: they are one machine's.
/// </summary>
internal static partial class Smoke
{
    private const int Runs = 9;

    // Enough for the runtime to compile the loops for good.
    private const int WarmUpRuns = 3;

    internal static void Run()
    {
        Console.WriteLine("pieces  unknowns  circuit  analyse   factor    solve  select   report [ms]   ngspice [ms]   ratio");
        foreach (int pieces in (ReadOnlySpan<int>)[1_000, 10_000, 100_000])
        {
            Measure(pieces, simulate: pieces <= 10_000);
        }
    }

    private static void Measure(int pieces, bool simulate)
    {
        Layout layout = LayoutGenerator.Make(pieces);
        RailGraph graph = RailGraph.Build(layout);
        Circuit circuit = CircuitBuilder.Build(graph, PowerOptions.Default.Turnouts);
        EquationSystem system = NodalModel.Equations(circuit);
        FactorPattern pattern = FactorPattern.Analyse(system.Graph);
        ConductanceWorkspace workspace = new(pattern);
        int[] slots = workspace.Slots(system.From, system.To);
        double[] values = new double[pattern.UnknownCount];

        double build = Best(() => CircuitBuilder.Build(graph, PowerOptions.Default.Turnouts));
        double analyse = Best(() => FactorPattern.Analyse(system.Graph));
        double factor = Best(() => workspace.Factor(slots, system.Siemens));
        double solve = Best(() => workspace.Solve(values));
        double select = Best(workspace.SelectInverse);
        double report = Best(() => PowerAnalysis.Solve(graph, PowerOptions.Default));
        double? theirs = simulate ? SimulatorMilliseconds(SpiceNetlist.Write(graph, PowerOptions.Default, NetlistLoads.SpreadDesign)) : null;
        string ratio = theirs is { } ms ? Invariant($"{ms,12:0.0}   {ms / (analyse + factor + solve),5:0}") : "           –       –";
        Console.WriteLine(Invariant(
            $"{layout.Track.Length,6}  {pattern.UnknownCount,8}  {build,7:0.00}  {analyse,7:0.00}  {factor,7:0.000}  {solve,7:0.000}  {select,6:0.000}  {report,7:0.0}  {ratio}"));
    }

    private static double Best(Action action)
    {
        double[] times = new double[Runs];
        long begin = Stopwatch.GetTimestamp();
        for (int i = 0; i < WarmUpRuns || (i < 300 && Stopwatch.GetElapsedTime(begin).TotalMilliseconds < 500); i++)
        {
            action();
        }

        for (int i = 0; i < Runs; i++)
        {
            long start = Stopwatch.GetTimestamp();
            action();
            times[i] = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        }

        return times.Min();
    }

    /// <summary>What the simulator reports as its total analysis time, or null where it is not installed.</summary>
    private static double? SimulatorMilliseconds(string netlist)
    {
        string file = Path.Combine(Path.GetTempPath(), $"wireup-smoke-{Environment.ProcessId.ToString(CultureInfo.InvariantCulture)}.cir");
        try
        {
            File.WriteAllText(file, netlist);
            using Process? process = Process.Start(new ProcessStartInfo("ngspice", ["-b", file])
            {
                UseShellExecute = false,
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            });
            Task<string>? errors = process?.StandardError.ReadToEndAsync();
            string output = process?.StandardOutput.ReadToEnd() ?? "";
            Match match = AnalysisTime().Match(output + errors?.Result);
            return match.Success ? 1000 * double.Parse(match.Groups["seconds"].Value, CultureInfo.InvariantCulture) : null;
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    [GeneratedRegex(@"Total analysis time \(seconds\) = (?<seconds>[0-9.e+-]+)", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex AnalysisTime();
}
