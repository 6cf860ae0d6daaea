using System.Collections.Immutable;
using System.CommandLine;
using WireUp.Circuits;
using WireUp.Circuits.Places;
using WireUp.Circuits.Trains;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Rails;
using WireUp.Rails.Routes;

namespace WireUp.Commands;

/// <summary>What was typed behind <c>--at</c>, <c>--route</c> and <c>--trains</c>.</summary>
/// <param name="At">Places to tell everything about.</param>
/// <param name="Routes">Routes to follow.</param>
/// <param name="TrainCount">How many trains to place at their worst, or null for those of the stock list.</param>
internal sealed record PlaceQuestions(string[] At, string[] Routes, int? TrainCount)
{
    private const int MostTrains = 60;

    /// <summary>The option <c>--at</c>.</summary>
    public static Option<string[]> AtOption() =>
        new("--at") { Description = "A place to tell everything about: 'loop@1 m'. May be given several times." };

    /// <summary>The option <c>--route</c>.</summary>
    public static Option<string[]> RouteOption() => new("--route")
    {
        Description = "A route to follow: pieces, ends or places as a train comes to them, 'yard-1 > T3 > loop@2 m'. What lies between is found, "
            + "and turnouts are set for it. May be given several times.",
    };

    /// <summary>The option <c>--trains</c>.</summary>
    public static Option<int?> TrainsOption()
    {
        Option<int?> option = new("--trains")
        {
            Description = "How many trains to place where they lower the volts most; without it those that move at once by the stock list.",
        };
        option.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && result.GetValueOrDefault<int?>() is not (>= 1 and <= MostTrains))
            {
                result.AddError($"--trains must be a number from 1 to {MostTrains}");
            }
        });
        return option;
    }

    /// <summary>The worst places of the trains. A cab drives one train at a time: there they are placed only when asked for.</summary>
    public WorstTrainsReport? Trains(RailGraph graph, PowerOptions options, CancellationToken cancel) =>
        TrainCount is null && graph.Layout.Control == ControlSystem.Direct
            ? null
            : WorstTrains.Find(graph, options, TrainDemand.Of(graph.Layout, TrainCount), null, cancel);

    /// <summary>The option <c>--plot</c>.</summary>
    public static Option<FileInfo?> PlotOption() =>
        new("--plot") { Description = "Picture to write: volts and fault current along the one --route, or the currents of --session over the time; .svg, .png or .pdf." };

    /// <summary>Refuses a picture that cannot be drawn, before any work is done for it.</summary>
    /// <exception cref="InputRefused">Not exactly one route was asked for, or the file's name is none of a picture.</exception>
    public void CheckPlot(FileInfo file)
    {
        if (Routes.Length != 1)
        {
            throw new InputRefused($"--plot draws one route: say which with --route, {(Routes.Length == 0 ? "such as --route 'yard-1 > loop'" : "once")}");
        }

        PictureFile.Check(file);
    }

    /// <summary>The places, told for the positions asked.</summary>
    /// <exception cref="InputRefused">A place cannot be read.</exception>
    public ImmutableArray<PlaceReport> Places(RailGraph graph, PowerOptions options)
    {
        if (At.Length == 0)
        {
            return [];
        }

        TrackPlace[] places = [.. At.Select(text => Place(graph.Layout, text))];
        PowerMap map = PowerMap.Of(graph, options);
        return [.. places.Select(place => PlaceReport.Of(map, graph.Index, place))];
    }

    /// <summary>The routes, each solved with the turnouts set for it.</summary>
    /// <exception cref="InputRefused">A route cannot be read or cannot be driven.</exception>
    public ImmutableArray<RoutePower> Followed(RailGraph graph, PowerOptions options) => [.. Routes.Select(text => Follow(graph, options, text))];

    /// <summary>The stops of a route that a train can drive with no piece in two positions.</summary>
    /// <exception cref="InputRefused">It cannot be read or cannot be driven so.</exception>
    public static ImmutableArray<RouteStop> Stops(Layout layout, string text)
    {
        ImmutableArray<RouteStop> stops = Common.Value(LayoutWords.Route(layout, text), $"--route '{text}'");
        PowerOptions usual = PowerOptions.Default;
        Set(Found(new(layout), usual, stops, text), usual.Turnouts, text);
        return stops;
    }

    private static TrackRoute Found(LayoutIndex index, PowerOptions options, ImmutableArray<RouteStop> stops, string text) =>
        new RouteFinder(index, options.Turnouts).Find(stops) switch
        {
            RouteSearch.Found { Route: var route } => route,
            RouteSearch.NoWay none => throw new InputRefused($"--route '{text}': {none.Message}"),
            var search => throw new InvalidOperationException($"not an outcome: {search}"),
        };

    private static TrackPlace Place(Layout layout, string text) => Common.Value(LayoutWords.Place(layout, text.Trim()), $"--at '{text}'");

    private static RoutePower Follow(RailGraph graph, PowerOptions options, string text)
    {
        ImmutableArray<RouteStop> stops = Common.Value(LayoutWords.Route(graph.Layout, text), $"--route '{text}'");
        TrackRoute route = Found(graph.Index, options, stops, text);
        return RoutePower.Of(PowerMap.Of(graph, options with { Turnouts = Set(route, options.Turnouts, text) }), route);
    }

    /// <summary>The positions asked, and for the rest those that the route needs.</summary>
    private static ImmutableSortedDictionary<PieceId, string> Set(TrackRoute route, ImmutableSortedDictionary<PieceId, string> asked, string text)
    {
        foreach (IGrouping<PieceId, Setting> owner in route.Settings.GroupBy(setting => setting.Owner))
        {
            string[] needed = [.. owner.Select(setting => setting.Position)];
            if (asked.TryGetValue(owner.Key, out string? position))
            {
                if (!needed.Contains(position))
                {
                    throw new InputRefused($"--route '{text}': passes '{owner.Key}' set to {string.Join(" and ", needed)}, but --set says {position}");
                }
            }
            else if (needed.Length > 1)
            {
                throw new InputRefused($"--route '{text}': passes '{owner.Key}' set to {string.Join(" and then ", needed)}; "
                    + $"say for which to solve, such as --set '{owner.Key}={needed[0]}'");
            }
            else
            {
                asked = asked.Add(owner.Key, needed[0]);
            }
        }

        return asked;
    }
}
