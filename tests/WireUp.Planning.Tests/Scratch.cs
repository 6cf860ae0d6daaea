#pragma warning disable
using System.Diagnostics;
using WireUp.Layouts;using System.Collections.Immutable;

namespace WireUp.Planning.Tests;

public sealed class Scratch
{
    sealed class P(Stopwatch w) : IProgress<PlanProgress> { public void Report(PlanProgress p) => Console.Error.WriteLine($"   .. {w.ElapsedMilliseconds} ms {p}"); }
    [Fact]
    public void Try_out()
    {
        TextWriter o = Console.Error;
        string want = Environment.GetEnvironmentVariable("WANT") ?? "";
        foreach (string file in RepoFiles.SampleLayouts.Where(f => want == "" ? !f.Contains("tarrow") : f.Contains(want)))
        {
        Layout layout = LayoutFile.Read(File.ReadAllText(file), "x").Layout!;
        o.WriteLine("=== " + Path.GetFileName(file));
        Stopwatch w = Stopwatch.StartNew();
        PlanResult r = Planner.Plan(layout, null, new P(w), default);
        o.WriteLine($"finished {r.IsFinished} {w.ElapsedMilliseconds} ms");
        foreach (var x in r.Remains) o.WriteLine($"  R {x}");
        foreach (var x in r.Objectives) o.WriteLine($"  {x.Name} {x.Value} {x.Bound}");
        foreach (var x in r.After.Wiring.Districts) o.WriteLine($"  {x}");
        foreach (var x in r.After.Wiring.Boosters) o.WriteLine($"  {x}");
        foreach (var x in r.After.Wiring.Supplies) o.WriteLine($"  {x}");
        foreach (var x in r.Gauges) o.WriteLine($"  {x.District} {x.Wire} {x.Drop.Percent:0.00} {x.FaultCurrent.Amperes:0.0} {x.Chosen} {x.Verdict}");
        foreach (var x in r.After.Wiring.Buses) o.WriteLine($"  {x.District}: {string.Join(", ", x.Runs.Select(q => $"{q.From} > {q.To} {q.Length.Meters:0.00}"))}");
        foreach (var x in r.After.Wiring.Feeders) o.WriteLine($"  {x.Name} {x.At} {x.District} {x.Tap} {x.Wire} {x.Length.Millimeters:0} {x.Swap}");
        foreach (var x in r.Proposals) o.WriteLine($"  {x.Id} | {x.Kind} | {x.At} | {x.Reason} | {x.Rule} | {x.Cost} | {string.Join(" // ", x.Working)}");
        foreach (var x in r.Power.Districts) o.WriteLine($"  {x.District} load {x.DesignLoad.Amperes:0.00} drop {x.LowestVolts.Drop.Percent:0.0} at {x.LowestVolts.At} fault {x.LowestFault.FaultCurrent.Amperes:0.0} at {x.LowestFault.At}");
        }
    }
}
