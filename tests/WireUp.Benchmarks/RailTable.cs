using System.Diagnostics;
using System.Globalization;
using WireUp.Checking;
using WireUp.Layouts;
using WireUp.Rails;
using WireUp.Testing;

namespace WireUp.Benchmarks;

/// <summary>
/// What the analysis of rails costs, as a table: layouts made to be hard, and railways of growing size. Best of a few runs; nothing is
/// asserted, for the figures are one machine's, but the steps of the search are the same everywhere.
/// </summary>
internal static class RailTable
{
    private const int Runs = 3;

    internal static void Run(bool quick, bool hard = true)
    {
        Console.WriteLine("layout                                pieces  turnouts  contacts     build   analyse     check [ms]      steps  undecided  by position");
        foreach ((string name, Func<Layout> make) in hard ? Hard() : [])
        {
            Measure(name, make());
        }

        foreach (int turnouts in quick ? [100, 1_000] : (ReadOnlySpan<int>)[100, 1_000, 10_000])
        {
            Measure("stations, one feeder, no gaps", LargePlans.Bare(turnouts));
            Measure("stations, gapped rightly", LargePlans.Stations(turnouts));
            Measure("stations, six faults", LargePlans.Stations(turnouts, faults: 6));
        }
    }

    private static IEnumerable<(string Name, Func<Layout> Make)> Hard()
    {
        foreach (int turnouts in (int[])[200, 2_000])
        {
            yield return ("ladder, roads without feed", () => HardPlans.Ladder(turnouts, fedRoads: false));
            yield return ("ladder, every road fed", () => HardPlans.Ladder(turnouts, fedRoads: true));
            yield return ("yard, both leads fed", () => HardPlans.Yard(turnouts, 0));
            yield return ("yard, every tenth road fed", () => HardPlans.Yard(turnouts, 10));
            yield return ("crossovers, fed at one end", () => HardPlans.Crossovers(turnouts, fedEverywhere: false));
            yield return ("crossovers, fed everywhere", () => HardPlans.Crossovers(turnouts, fedEverywhere: true));
            yield return ("double slips, 10 tracks", () => HardPlans.Slips(10, turnouts / 5));
            yield return ("scissors, fed at one end", () => HardPlans.Scissors(turnouts, fedEverywhere: false));
            yield return ("tangle, 2 feeders", () => HardPlans.Tangle(turnouts, 2, 1));
            yield return ("tangle, 10 feeders", () => HardPlans.Tangle(turnouts, 10, 1));
            yield return ("blocks of three cabs", () => HardPlans.Blocks(turnouts, 3, 0));
            yield return ("blocks, every tenth gap left out", () => HardPlans.Blocks(turnouts, 3, 10));
        }
    }

    private static void Measure(string name, Layout layout)
    {
        RailGraph graph = RailGraph.Build(layout);
        PolarityReport report = Polarity.Analyse(graph);
        double build = Best(() => RailGraph.Build(layout));
        double analyse = Best(() => Polarity.Analyse(graph));
        double check = Best(() => Checker.Check(layout));
        int moving = layout.Track.Count(piece => !TrackworkTable.Of(piece, layout.Control).Positions.IsEmpty) + layout.Wiring.Switches.Length;
        Console.WriteLine(Text(
            $"{name,-36} {layout.Track.Length,7}  {moving,8}  {graph.Links.Count(link => link is RailLink.Contact),8}  {build,8:0.0}  {analyse,8:0.0}  {check,8:0.0}         {report.SearchSteps,8}  {report.Undecided.Length,9}  {report.ByPosition.Length,11}"));
    }

    private static double Best(Action action)
    {
        double best = double.PositiveInfinity;
        long begin = Stopwatch.GetTimestamp();
        for (int i = 0; i < Runs && (i == 0 || Stopwatch.GetElapsedTime(begin).TotalSeconds < 5); i++)
        {
            long start = Stopwatch.GetTimestamp();
            action();
            best = Math.Min(best, Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }

        return best;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
