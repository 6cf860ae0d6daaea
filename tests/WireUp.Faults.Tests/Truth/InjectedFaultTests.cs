using WireUp.Benchmarks.Faults;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Faults.Tests.Truth;

/// <summary>
/// Faults put into the exported netlist of the club, read in the circuit simulator through a meter that is off at random, and looked for with the
/// readings that the search asks for. A small part of what `-- faults` of the benchmarks runs, whose figures stand in docs/fault-trials.md.
/// </summary>
public sealed class InjectedFaultTests
{
    [Fact]
    public void The_faulty_part_is_first_after_four_readings()
    {
        const int Count = 14, Readings = 4;
        TrialOutcome outcome = Run(TrialKind.Single, Count);
        Assert.InRange(outcome.First[Readings], Count - 1, Count);
        Assert.Equal(Count, outcome.Among[Readings]);
        Assert.True(outcome.First[0] < outcome.First[Readings], "the readings tell nothing that the complaint does not");
    }

    [Fact]
    public void It_is_among_the_first_three_where_sound_parts_vary_too()
    {
        const int Count = 6, Readings = 4;
        Assert.InRange(Run(TrialKind.Varying, Count).Among[Readings], Count - 1, Count);
    }

    [Fact]
    public void A_short_is_found_with_four_readings_of_a_limited_supply()
    {
        const int Count = 10, Readings = 4;
        TrialOutcome outcome = Run(TrialKind.Touching, Count);
        Assert.InRange(outcome.First[Readings], Count - 1, Count);
        Assert.Equal(Count, outcome.Among[Readings]);
        Assert.True(outcome.First[0] < outcome.First[Readings], "the readings tell nothing that the complaint does not");
    }

    private static TrialOutcome Run(TrialKind kind, int count) => TrialOutcome.Of(kind, Trials().Run(kind, Enumerable.Range(0, count)));

    private static FaultTrials Trials()
    {
        string program = OutsideTools.RequireNgspice();
        Layout layout = LayoutFile.Read(RepoFiles.ReadText("sample-layouts/tarrow-valley-as-built.layout.yaml"), "club").Layout!;
        return new(layout, netlist => InFile(netlist, file => Ngspice.Run(program, file)));
    }

    private static string InFile(string text, Func<string, string> run)
    {
        string folder = Directory.CreateTempSubdirectory("wireup-faults-").FullName;
        try
        {
            string file = Path.Combine(folder, "faults.cir");
            File.WriteAllText(file, text);
            return run(file);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
