using System.Diagnostics;
using System.Globalization;
using System.Text;
using WireUp.Layouts;
using WireUp.Planning;
using WireUp.Testing;

namespace WireUp.Benchmarks;

/// <summary>
/// What a plan costs, stage by stage, and how far each thing that is minimised is from its bound: the club sample and a generated
/// layout of 3,000 pieces, nothing wired on either. The long run writes the table into docs/performance.md.
/// </summary>
internal static class PlanningTable
{
    internal static void Run(bool quick)
    {
        LayoutReading club = LayoutFile.Read(RepoFiles.ReadText("sample-layouts/tarrow-valley.layout.yaml"), "tarrow-valley.layout.yaml");
        Measured[] found = [.. (quick ? [club.Layout!, UnwiredLayouts.Make(600)] : new[] { club.Layout!, UnwiredLayouts.Make(3_000) }).Select(Measure)];
        string table = Table(found);
        Console.WriteLine(table);
        if (!quick)
        {
            Page.Put(table, PlanningRows.Begin, PlanningRows.End);
        }
    }

    private static Measured Measure(Layout layout)
    {
        Stages stages = new();
        PlanResult plan = Planner.Plan(layout, progress: stages);
        foreach (string remains in plan.Remains)
        {
            Console.Error.WriteLine($"{layout.Name}: remains {remains}");
        }

        return new(layout, plan, stages.Seconds);
    }

    private static string Table(Measured[] found)
    {
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $"| | {string.Join(" | ", found.Select(each => Text($"{each.Layout.Name}, {each.Layout.Track.Length:N0} pieces")))} |\n");
        text.Append(CultureInfo.InvariantCulture, $"| --- |{string.Concat(found.Select(_ => " ---: |"))}\n");
        foreach (string stage in PlanningRows.Stages)
        {
            text.Append(CultureInfo.InvariantCulture, $"| {stage} | {string.Join(" | ", found.Select(each => Text($"{each.Seconds.GetValueOrDefault(stage):0.00} s")))} |\n");
        }

        text.Append(CultureInfo.InvariantCulture, $"| {PlanningRows.All} | {string.Join(" | ", found.Select(each => Text($"{each.Seconds.Values.Sum():0.0} s")))} |\n");
        foreach (string objective in PlanningRows.Objectives)
        {
            text.Append(CultureInfo.InvariantCulture, $"| `{objective}` | {string.Join(" | ", found.Select(each => Gap(each.Plan, objective)))} |\n");
        }

        return text.ToString();
    }

    private static string Gap(PlanResult plan, string name) => plan.Objectives.FirstOrDefault(each => each.Name == name) is not { } objective
        ? "–"
        : Text($"{objective.Value:0.##} ≥ {objective.Bound:0.##}, gap {(objective.Value > 0 ? (objective.Value - objective.Bound) / objective.Value : 0):P1}");

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private sealed record Measured(Layout Layout, PlanResult Plan, IReadOnlyDictionary<string, double> Seconds);

    /// <summary>Takes the processor time from each report of progress to the next: others may use the machine.</summary>
    private sealed class Stages : IProgress<PlanProgress>
    {
        private readonly Dictionary<string, double> _seconds = [];
        private string? _stage;
        private TimeSpan _since;

        public IReadOnlyDictionary<string, double> Seconds => _seconds;

        public void Report(PlanProgress value)
        {
            TimeSpan now = Process.GetCurrentProcess().TotalProcessorTime;
            if (_stage is not null)
            {
                _seconds[_stage] = _seconds.GetValueOrDefault(_stage) + (now - _since).TotalSeconds;
            }

            // "boosters, bus and wire: 3 new boosters" and "wire of the bus" are the same stage going on.
            _stage = PlanningRows.Stages.FirstOrDefault(stage => value.Stage.StartsWith(stage, StringComparison.Ordinal)) ?? _stage;
            _since = now;
        }
    }
}
