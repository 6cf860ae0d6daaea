using System.Globalization;
using System.Text;
using UnitsNet;
using WireUp.Circuits.Devices;
using WireUp.Circuits.Sessions;
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
            text.Append(Spelled.Under("Bus", BusEffects.Of(layout, [.. power.Sections.Select(section => section.LargestLoop.At)])));
            if (MeetingLoads.Of(layout, power) is { } meeting)
            {
                text.Append(Spelled.Under("Meeting", layout.Wiring.Districts.Select(district => meeting.OfDistrict(district.Name)).Concat(layout.Wiring.Boosters.Select(booster => meeting.OfBooster(booster.Name)))));
            }

            SessionOptions brief = new() { Length = Duration.FromMinutes(20), LeastSessions = 2, MostSessions = 2, Threads = 1 };
            text.Append(Spelled.Under("Session", SessionAnalysis.Run(graph, brief, cancellation: TestContext.Current.CancellationToken), "Options", "Shares", "FirstSession"));
            text.Append('\n');
        }

        return text.ToString();
    }
}
