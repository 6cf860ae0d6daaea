using UnitsNet;
using WireUp.Circuits.Network;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Audit;

/// <summary>What holds in every circuit: currents add up to zero at every node, and power delivered is power used.</summary>
public sealed class ConservationTests
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(101, 200)];

    public static TheoryData<string> Samples => SampleFiles.Names;

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Currents_and_power_balance_on_random_layouts(int seed)
    {
        (Layout layout, PowerOptions options) = RandomPlans.Make(seed);
        Audit(layout, options);
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Currents_and_power_balance_on_samples(string file)
    {
        Layout layout = SampleFiles.Wired(file);
        Audit(layout, new() { Loads = [.. layout.Track.OfType<Piece.Section>().Select(s => new PlacedLoad(new(s.Id, 0), ElectricCurrent.FromAmperes(0.1)))] });
        Assert.Empty(PowerAnalysis.Solve(layout, PowerOptions.Default, TestContext.Current.CancellationToken).Problems);
    }

    private static void Audit(Layout layout, PowerOptions options)
    {
        NodalModel model = NodalModel.Of(CircuitBuilder.Build(RailGraph.Build(layout, options.Places), options.Turnouts));
        TrackSurvey survey = new(model, model.Potentials([]));
        PlacedCase placed = new(model, survey, options);

        (double[] residual, _) = model.Residuals(placed.Potentials, placed.Loads);
        Assert.All(residual, amps => Assert.InRange(amps, -NodalModel.ResidualLimitAmps, NodalModel.ResidualLimitAmps));

        double delivered = model.Circuit.Sources.Sum(source => source.Volts * AmpsOf(model, source, placed.Potentials));
        double heat = model.Circuit.Elements.Where(e => e.Ohms > 0 && model.Unknowns.Of(e.From) != Unknowns.Unfed)
            .Sum(e => Math.Pow(Volts(model, e.From, e.To, placed.Potentials), 2) / e.Ohms);
        double used = placed.Loads.Sum(load => load.Amps * Volts(model, load.From, load.To, placed.Potentials));
        Assert.Equal(delivered, heat + used, 1e-9 * (1 + heat + Math.Abs(used)));
    }

    /// <summary>Current out of a booster, through its output resistance; the layouts here all have one.</summary>
    private static double AmpsOf(NodalModel model, CircuitSource source, double[] potentials) =>
        Volts(model, source.Plus, source.Terminal, potentials) / source.Booster.Resistance.Ohms;

    private static double Volts(NodalModel model, int from, int to, double[] potentials) =>
        model.PotentialOf(from, potentials) - model.PotentialOf(to, potentials);
}
