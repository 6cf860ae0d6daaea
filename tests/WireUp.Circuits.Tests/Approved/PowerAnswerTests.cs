using System.Globalization;
using System.Text;
using UnitsNet;
using WireUp.Circuits.Devices;
using WireUp.Circuits.Sessions;
using WireUp.Circuits.Trains;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Approved;

/// <summary>
/// What the circuits of small layouts say, to five digits, so that a figure that moves is seen: volts and fault currents, devices in time, trains
/// over gaps, what each run of bus takes, a short simulation. That figures are right is held by closed forms and a circuit simulator in other tests.
/// </summary>
public sealed class PowerAnswerTests
{
    private const string Folder = "tests/WireUp.Circuits.Tests/Approved";

    [Fact]
    public void Circuits_of_the_examples_about_limits_are_as_approved() => ApprovedText.Matches(
        Told(ExampleLayouts.OfPages.Where(page => page.Name.StartsWith("WU4", StringComparison.Ordinal) && page.Name.EndsWith("faulty", StringComparison.Ordinal)).Select(Read)), "pages.txt", Folder);

    [Fact]
    public void Circuits_of_the_samples_are_as_approved() => ApprovedText.Matches(
        Told(ExampleLayouts.Samples.Select(Read).Where(layout => !layout.Wiring.Feeders.IsEmpty)),
        "samples.txt",
        Folder);

    private static Layout Read((string Name, string Text) file) => ExampleLayouts.Read(file.Text, file.Name) with { Name = file.Name };

    private static string Told(IEnumerable<Layout> layouts)
    {
        StringBuilder text = new();
        foreach (Layout layout in layouts)
        {
            RailGraph graph = RailGraph.Build(layout);
            PowerReport power = PowerAnalysis.Solve(graph, PowerOptions.Default, TestContext.Current.CancellationToken);
            text.Append(CultureInfo.InvariantCulture, $"# {layout.Name}\n");
            text.Append(Spelled.Under("Power", power));
            text.Append(Spelled.Under("Protection", Protection.Of(layout, power)));
            text.Append(Spelled.Under("Over gaps", TrainsOverGaps.Of(graph, PowerOptions.Default.Turnouts)));
            if (MeetingLoads.Of(layout, power) is { } meeting)
            {
                text.Append(Spelled.Under("Meeting", layout.Wiring.Districts.Select(district => meeting.OfDistrict(district.Name)).Concat(layout.Wiring.Boosters.Select(booster => meeting.OfBooster(booster.Name)))));
            }

            SessionOptions brief = new() { Length = Duration.FromMinutes(20), LeastSessions = 2, MostSessions = 2, Threads = 1 };
            SessionAnswer session = SessionAnalysis.Run(graph, brief, cancellation: TestContext.Current.CancellationToken);
            text.Append(Spelled.Under("Session", session, "Options", "Shares", "FirstSession"));
            PowerOptions loaded = PowerOptions.Default with { Loads = [.. Placed(layout)] };
            PowerReport placed = PowerAnalysis.Solve(RailGraph.Build(layout, loaded.Places), loaded, TestContext.Current.CancellationToken);
            text.Append(Spelled.Under("Placed", placed.Places));
            if (session is SessionAnswer.Simulated { Report: var ran }) text.Append(Spelled.Under("Loading", LoadingComparison.Of(RailGraph.Build(layout, loaded.Places), placed, ran), "Operated", "Rows"));
            text.Append(Spelled.Under("Worst trains", WorstTrains.Find(graph, PowerOptions.Default, TrainDemand.Of(layout), cancellation: TestContext.Current.CancellationToken), "Worst"));
            text.Append('\n');
        }

        return text.ToString();
    }

    /// <summary>Half an ampere in the middle of the first section, and what the stock list has, in the middle of the last one.</summary>
    private static IEnumerable<PlacedLoad> Placed(Layout layout)
    {
        Piece.Section[] sections = [.. layout.Track.OfType<Piece.Section>()];
        IEnumerable<string> stock = layout.Stock.Trains.Select(train => train.Name).Concat(layout.Stock.Locomotives.Select(engine => engine.Name));
        return [new PlacedLoad(Middle(sections[0]), ElectricCurrent.FromAmperes(0.5)), .. stock.Take(2).SelectMany(name => PlacedLoad.OfStock(Middle(sections[^1]), name, layout))];
    }

    private static TrackPlace Middle(Piece.Section section) => new(section.Id, section.Length.Meters / 2);
}
