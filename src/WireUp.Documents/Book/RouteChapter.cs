using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Circuits.Places;
using WireUp.Documents.Drawings;
using WireUp.Documents.Plots;
using WireUp.Layouts;
using WireUp.Rails;
using WireUp.Rails.Routes;

namespace WireUp.Documents.Book;

/// <summary>Volts and fault current along one route, on a page of its own.</summary>
internal static class RouteChapter
{
    public const string Title = "Volts along a route";

    public static void Write(BookFacts facts, BookFlow flow, CancellationToken cancellation)
    {
        if (RouteOf(facts) is not { } route) return;
        cancellation.ThrowIfCancellationRequested();
        RailGraph graph = facts.Drawn.Phases.Graph;
        ImmutableSortedDictionary<PieceId, string> set = PowerOptions.Default.Turnouts.SetItems(route.Settings.Select(setting => KeyValuePair.Create(setting.Owner, setting.Position)));
        RoutePower power = RoutePower.Of(PowerMap.Of(graph, PowerOptions.Default with { Turnouts = set }), route);
        Sheet paper = Sheet.Of(facts.Options.Paper);
        BookPage page = new(new(Math.Max(paper.Width, paper.Height), Math.Min(paper.Width, paper.Height)), Title);
        SheetBuilder canvas = new();
        RoutePlot.Paint(canvas, (power, facts.Layout, facts.Drawn.Geometry), page.Content with { Top = page.Content.Top - 6 });
        page.Add(canvas.Shapes);
        flow.AddDrawn(page, inContents: true);
    }

    private static TrackRoute? RouteOf(BookFacts facts)
    {
        if (facts.Plan.Power.Districts.IsEmpty) return null;
        RouteFinder finder = new(facts.Drawn.Index, PowerOptions.Default.Turnouts);
        return facts.Options.Route.IsEmpty
            ? RouteChoice.LongestTo(finder, facts.Layout, facts.Plan.Power.Districts.MaxBy(district => district.LowestVolts.Drop.DecimalFractions)!.LowestVolts.At.Section)
            : RouteChoice.Find(finder, facts.Options.Route);
    }
}
