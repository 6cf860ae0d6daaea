using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Frogs;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing;

/// <summary>Puts a pair of feeders wherever one will stand in the end, so that the analysis of polarity can judge a plan.</summary>
internal static class Fed
{
    /// <summary>The layout with the gaps of both plans, and a feeder amid every stretch longer than the shortest pick-up.</summary>
    public static Layout With(Layout layout, ReversingPlan reversing, FrogPlan frogs)
    {
        Layout cut = frogs.ApplyTo(layout.Wired(wiring => wiring with { Gaps = [.. wiring.Gaps, .. reversing.Gaps] }));
        return cut.Wired(wiring => wiring with
        {
            Boosters = [new("booster", ElectricPotential.FromVolts(15), ElectricCurrent.FromAmperes(5), ElectricResistance.FromOhms(0.1))],
            Districts = [District("main"), .. reversing.Sections.Select(section => District(section.Name) with { Reversing = true })],
            Feeders = [.. reversing.Phases
                .Where(phase => phase.Stretch.ToMetres - phase.Stretch.FromMetres > layout.ShortestPickup.Meters + 1e-6)
                .Where(phase => !layout.NoFeeder.Contains(phase.Stretch.Section))
                .Select((phase, i) => Feeder(phase, i, reversing))],
        });
    }

    /// <summary>The layout without sections too short to be fed, on which a frog could hang without meeting anything.</summary>
    public static Layout Everywhere(Layout layout) => layout with
    {
        Track = [.. layout.Track.Select(piece => piece is Piece.Section { Length.Meters: < 0.1 } section ? section with { Length = Length.FromMeters(0.4) } : piece)],
    };

    private static District District(string name) =>
        new(name, "booster", ElectricCurrent.FromAmperes(3), ElectricResistance.FromMilliohms(50));

    private static Feeder Feeder(PhaseStretch phase, int number, ReversingPlan plan)
    {
        TrackPlace at = new(phase.Stretch.Section, (phase.Stretch.FromMetres + phase.Stretch.ToMetres) / 2);
        string district = plan.SectionAt(at)?.Name ?? "main";
        return new($"f{number}", at, district, "P", new Wire.Awg(20), Length.FromMeters(0.2)) { Swap = plan.SwapAt(at) };
    }
}
