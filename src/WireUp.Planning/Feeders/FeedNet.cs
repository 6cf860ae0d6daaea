using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Network.WhatIfs;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Feeders;

/// <summary>Candidates of which one at least is needed.</summary>
/// <param name="At">The place that is beyond its limits without.</param>
/// <param name="WithinMetres">How far the farthest of them is from it.</param>
/// <param name="Candidates">The candidates, ascending.</param>
internal sealed record NeededFeeder(TrackPlace At, double WithinMetres, ImmutableArray<int> Candidates);

/// <summary>
/// A district with a feeder at every cell, 5 cm of track: taking away those around a place until it is beyond its limits shows where
/// a feeder is needed, wherever the others are, since each feeder more makes the resistance that the place sees smaller.
/// </summary>
internal sealed class FeedNet
{
    /// <summary>Length of a cell.</summary>
    public const double CellMetres = 0.05;

    private const double FarMetres = 1e3;
    private const int MostRows = 40;

    private readonly string _district;
    private readonly Layout _everywhere;
    private readonly ElectricCurrent _amps;
    private readonly double _limitOhms, _cellOhms;
    private readonly int _built;
    private readonly int _cellCount;
    private readonly ImmutableArray<Feeder> _places;
    private readonly FeederRemovals _removals;
    private readonly ImmutableArray<ImmutableArray<(int Cell, double Metres)>> _near;
    private readonly ILookup<PieceId, (double Metres, int Cell)> _cellsOn;
    private readonly ImmutableArray<int> _cellOf;
    private readonly ILookup<int, int> _inCell;

    /// <summary>Solves the district with a feeder at every cell.</summary>
    /// <param name="track">The track.</param>
    /// <param name="everywhere">The district alone: feeders that are there, then one at every cell.</param>
    /// <param name="built">How many are there.</param>
    /// <param name="amps">Design load of the district.</param>
    /// <param name="limitOhms">What no place may exceed: volts lost for each ampere of the train.</param>
    /// <param name="ends">Places to look at besides, which no feeder is at.</param>
    /// <param name="candidates">Places of the district where feeders may go, by number.</param>
    public FeedNet(FeedableTrack track, Layout everywhere, int built, ElectricCurrent amps, double limitOhms, ImmutableArray<Feeder> ends, ImmutableArray<TrackPlace> candidates)
    {
        (_everywhere, _built, _amps, _limitOhms) = (everywhere, built, amps, limitOhms);
        _district = everywhere.Wiring.Districts[0].Name;
        ImmutableArray<Feeder> cells = [.. everywhere.Wiring.Feeders.Skip(built)];
        (_cellCount, _places) = (cells.Length, [.. cells, .. ends]);
        _removals = new(everywhere, amps, _places);
        _near = Near(track);
        _cellsOn = cells.Select((cell, i) => (cell.At, i)).ToLookup(pair => pair.At.Section, pair => (pair.At.MetresFromA, pair.i));
        _cellOf = [.. candidates.Select(NearestCell)];
        _inCell = Enumerable.Range(0, candidates.Length).ToLookup(candidate => _cellOf[candidate]);

        // A feeder may stand half a cell nearer to a place than its cell says.
        _cellOhms = CellMetres / 2 * OhmsPerMetre(everywhere);
    }

    /// <summary>Around every place, the nearest cells that must not all be without a feeder; beyond the distance allowed one is asked for anyhow.</summary>
    public IEnumerable<NeededFeeder> Nearest() => Enumerable.Range(0, _places.Length)
        .Select(place => Needed(place, _near[place].Where(near => near.Metres <= _everywhere.MaxFeederDistance.Meters).OrderBy(near => near.Metres), 0, _cellOhms))
        .OfType<NeededFeeder>();

    /// <summary>What is needed beside some feeders, in the circuit with a feeder at every cell; empty when they do.</summary>
    /// <param name="chosen">The candidates chosen.</param>
    public ImmutableArray<NeededFeeder> Beside(IReadOnlyCollection<int> chosen)
    {
        HashSet<int> cells = CellsOf(chosen);
        ImmutableArray<double> ohms = OhmsWith(cells);
        return Beside(cells, place => ohms[place], _ => 0, _cellOhms);
    }

    /// <summary>
    /// The same in a circuit as it would be built: how much more a place sees there than here counts as well, and what is beyond the limit is asked
    /// for more than once over.
    /// </summary>
    /// <param name="chosen">The candidates chosen.</param>
    /// <param name="layout">The layout with these feeders and their bus.</param>
    /// <param name="worst">What the worst places of its sections lose for each ampere; each counts for the nearest cell of its section.</param>
    /// <param name="over">Part of what is beyond the limit that is asked for besides.</param>
    public ImmutableArray<NeededFeeder> Beside(IReadOnlyCollection<int> chosen, Layout layout, IEnumerable<(TrackPlace At, double Ohms)> worst, double over)
    {
        HashSet<int> cells = CellsOf(chosen);
        ImmutableArray<double> here = OhmsWith(cells);
        double[] there = [.. FeederRemovals.OhmsAt(layout, _district, _amps, _places)];
        foreach ((TrackPlace at, double ohms) in worst.Where(place => _cellsOn.Contains(place.At.Section)))
        {
            int cell = NearestCell(at);
            there[cell] = Math.Max(there[cell], ohms);
        }

        return Beside(cells, place => there[place], place => Math.Max(0, there[place] - here[place]) + (over * (there[place] - _limitOhms)), 0);
    }

    private ImmutableArray<NeededFeeder> Beside(HashSet<int> cells, Func<int, double> ohms, Func<int, double> less, double margin)
    {
        Dictionary<int, double> toChosen = cells.SelectMany(cell => _near[cell]).GroupBy(near => near.Cell, near => near.Metres).ToDictionary(group => group.Key, group => group.Min());
        return
        [
            .. Enumerable.Range(0, _places.Length).Where(place => _removals.IsFed(place) && ohms(place) > _limitOhms + margin)
                .OrderByDescending(ohms).Take(MostRows)
                .Select(place => Needed(
                    place,
                    _near[place].Where(near => !cells.Contains(near.Cell)).OrderBy(near => near.Metres / (near.Metres + toChosen.GetValueOrDefault(near.Cell, FarMetres) + 1e-9)),
                    less(place),
                    margin))
                .OfType<NeededFeeder>(),
        ];
    }

    /// <summary>The first few of some cells that bring a place beyond its limits when they all are without a feeder; null where they do not.</summary>
    private NeededFeeder? Needed(int place, IEnumerable<(int Cell, double Metres)> order, double lessOhms, double marginOhms)
    {
        (int Cell, double Metres)[] cells = [.. order];
        int? count = _removals.Breaking(place, [.. cells.Select(near => _built + near.Cell)], _limitOhms - lessOhms + marginOhms);
        ImmutableArray<int> candidates = [.. cells.Take(count ?? 0).SelectMany(near => _inCell[near.Cell]).Order()];
        return candidates.IsEmpty ? null : new(_places[place].At, cells.Take(count!.Value).Max(near => near.Metres), candidates);
    }

    private int NearestCell(TrackPlace place) => _cellsOn[place.Section].MinBy(cell => Math.Abs(cell.Metres - place.MetresFromA)).Cell;

    private HashSet<int> CellsOf(IReadOnlyCollection<int> chosen) => [.. chosen.Select(candidate => _cellOf[candidate])];

    private ImmutableArray<double> OhmsWith(HashSet<int> cells) => FeederRemovals.OhmsAt(
        _everywhere with { Wiring = _everywhere.Wiring with { Feeders = [.. _everywhere.Wiring.Feeders.Where((_, i) => i < _built || cells.Contains(i - _built))] } },
        _district, _amps, _places);

    /// <summary>For each place all cells within twice the distance that the layout allows to a feeder, along metal of either rail.</summary>
    private ImmutableArray<ImmutableArray<(int, double)>> Near(FeedableTrack track)
    {
        double most = 2 * _everywhere.MaxFeederDistance.Meters;
        ILookup<int, (int Cell, double Metres)> onLink = _places.Take(_cellCount)
            .SelectMany((cell, i) => track.BothLinksAt(cell.At).Select(link => (link, i, cell.At.MetresFromA)))
            .ToLookup(each => each.link, each => (each.i, each.MetresFromA));
        TrustedReach reach = new(track, most, anyJoiners: true);
        return [.. _places.Select(cell => track.BothLinksAt(cell.At)
            .SelectMany(link => OnMetal(link, cell.At.MetresFromA, reach.FromPoint(link, cell.At.MetresFromA)))
            .Where(near => near.Metres < most)
            .GroupBy(near => near.Cell, near => near.Metres)
            .Select(group => (group.Key, group.Min()))
            .ToImmutableArray())];

        IEnumerable<(int Cell, double Metres)> OnMetal(int from, double metres, Reach reached) => reached.Stretches.Select(stretch => stretch.Link).Distinct()
            .SelectMany(link =>
            {
                RailLink.Rail rail = (RailLink.Rail)track.Graph.Links[link];
                double toStart = reached.NodeMetres.GetValueOrDefault(rail.From, FarMetres), toEnd = reached.NodeMetres.GetValueOrDefault(rail.To, FarMetres);
                return onLink[link].Select(cell => (cell.Cell, Math.Min(
                    link == from ? Math.Abs(cell.Metres - metres) : FarMetres,
                    Math.Min(toStart + cell.Metres - rail.StartMetres, toEnd + rail.EndMetres - cell.Metres))));
            });
    }

    private static double OhmsPerMetre(Layout layout) => Layouts.Reference.RailTable.RailsInLoop(layout.Control) * layout.Track.OfType<Piece.Section>()
        .Select(section => section.Rail ?? layout.Defaults.Rail).Distinct()
        .Max(rail => Layouts.Reference.RailTable.OhmsPerMetre(rail, layout.Defaults.Temperature));
}
