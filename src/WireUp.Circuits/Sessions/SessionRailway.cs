using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Circuits.Sessions;

/// <summary>Everything about a railway that all its sessions share.</summary>
internal sealed class SessionRailway
{
    internal SessionRailway(RailGraph graph, OperatingModel? model = null)
    {
        Name = graph.Layout.Name;
        Model = model ?? OperatingModel.Of(graph.Layout.Scale);
        Feeds = new FeedMap(graph);
        Track = SessionTrackBuilder.Build(graph, Feeds, Model.CellMetres);
        Routes = new RouteTable(Track);
        Stock = SessionStock.Of(graph.Layout);
        Fitting = [.. Stock.Units.Select(Fits)];
        Boosters = [.. Feeds.Districts.Select(district => district.Booster).Distinct(StringComparer.Ordinal)];
        BoosterOf = [.. Feeds.Districts.Select(district => Boosters.IndexOf(district.Booster))];
    }

    internal string Name { get; }

    internal OperatingModel Model { get; }

    internal FeedMap Feeds { get; }

    internal SessionTrack Track { get; }

    internal RouteTable Routes { get; }

    internal SessionStock Stock { get; }

    /// <summary>For each unit the lines on which it can stand clear of all trackwork; of a longer one the longest there are.</summary>
    internal ImmutableArray<ImmutableArray<int>> Fitting { get; }

    /// <summary>Boosters by name, in the order of their districts.</summary>
    internal ImmutableArray<string> Boosters { get; }

    /// <summary>For each district the index of its booster.</summary>
    internal ImmutableArray<int> BoosterOf { get; }

    private ImmutableArray<int> Fits(TrainUnit unit)
    {
        double longest = Track.Lines.Select(line => Track.Stretches[line].Metres).DefaultIfEmpty(0).Max();
        double least = Math.Min(unit.Metres, longest);
        return [.. Track.Lines.Where(line => Track.Stretches[line].Metres >= least)];
    }
}
