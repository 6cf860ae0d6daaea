using System.Globalization;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Support;

/// <summary>Reads the sample layouts.</summary>
internal static class SampleFiles
{
    internal static TheoryData<string> Names => [.. RepoFiles.SampleLayouts.Select(file => Path.GetFileName(file)!)];

    /// <summary>
    /// The sample as it is where it has feeders; otherwise with a booster and one feeder a section, so that there is a circuit.
    /// (Without gaps some of these are shorted; they are circuits all the same.)
    /// </summary>
    internal static Layout Wired(string file)
    {
        Layout layout = ExampleLayouts.Read(RepoFiles.ReadText($"sample-layouts/{file}"), file);
        return layout.Wiring.Feeders.IsEmpty ? WithFeederEverywhere(layout) : layout;
    }

    private static Layout WithFeederEverywhere(Layout layout)
    {
        Piece.Section[] sections = [.. layout.Track.OfType<Piece.Section>()];
        return layout with
        {
            Wiring = layout.Wiring with
            {
                Boosters = [new("test-booster", ElectricPotential.FromVolts(15), ElectricCurrent.FromAmperes(5), ElectricResistance.FromOhms(0.1))],
                Districts = [new("test-district", "test-booster", ElectricCurrent.FromAmperes(4), ElectricResistance.FromOhms(0.05))],
                Buses = [new("test-district", [.. sections.Select((_, i) => Run(i))])],
                Feeders = [.. sections.Select((section, i) => Feeder(section, i))],
            },
        };
    }

    private static BusRun Run(int i) =>
        new(i == 0 ? "test-booster" : Tap(i - 1), Tap(i), Length.FromMeters(0.5), new Wire.Awg(12));

    private static Feeder Feeder(Piece.Section section, int i) => new(
        $"feeder-{i.ToString(CultureInfo.InvariantCulture)}", new(section.Id, section.Length.Meters / 2), "test-district", Tap(i),
        new Wire.Awg(20), Length.FromMeters(0.3));

    private static string Tap(int i) => $"tap-{i.ToString(CultureInfo.InvariantCulture)}";
}
