using System.Globalization;
using WireUp.Layouts;
using WireUp.Planning.Devices;

namespace WireUp.Planning.Districts;

/// <summary>
/// Divides the track into power districts. What is wired stays with its district; reversing sections are districts of their
/// own, and so is what somebody asked for; the rest is divided into as many connected districts as the load asks for, of
/// about equal length, with few boundaries, at joints in plain track.
/// </summary>
internal sealed class DistrictPlanner
{
    private const double Effort = 3;

    private readonly Layout _layout;
    private readonly TrackMap _map;
    private readonly PowerSizing _sizing;
    private readonly Boundaries _boundaries;
    private readonly double _fedMetres;
    private readonly ILookup<int, string> _builtIn;
    private readonly List<PlannedDistrict> _districts = [];
    private readonly List<DistrictBorder> _borders = [];
    private readonly List<string> _remains = [];
    private readonly List<(string Name, string Place)> _moved = [];
    private readonly bool _rework;
    private double _cost, _bound;
    private int _fewestOrdinary;

    private DistrictPlanner(Layout layout, PowerSizing sizing, bool rework)
    {
        (_layout, _map, _sizing, _rework) = (layout, TrackMap.Of(layout), sizing, rework);
        _boundaries = new(layout, new());
        _fedMetres = _map.Spots.Where(spot => spot.IsPlain).Sum(spot => spot.LengthMetres);
        _builtIn = layout.Wiring.Feeders.ToLookup(feeder => _map.ZoneOf(_map.SpotAt(feeder.At).Index), feeder => feeder.District);
    }

    /// <summary>Plans the districts of a layout whose reversing sections and frogs have their gaps.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="reversing">New reversing sections: name of the district and a landmark inside.</param>
    /// <param name="sizing">Which devices the load asks for.</param>
    /// <param name="rework">Whether feeders that are built may come to lie in a district that was asked for, and be moved.</param>
    /// <param name="cancel">Stops the division between two zones.</param>
    public static DistrictPlan Plan(
        Layout layout, IReadOnlyList<(string Name, TrackLandmark Inside)> reversing, PowerSizing sizing, bool rework = false, CancellationToken cancel = default)
    {
        DistrictPlanner planner = new(layout, sizing, rework);
        foreach (int zone in Enumerable.Range(0, planner._map.ZoneCount))
        {
            cancel.ThrowIfCancellationRequested();
            planner.PlanZone(zone, [.. reversing.Where(section => planner._map.ZoneOf(section.Inside.SpotIn(planner._map)) == zone).Select(section => section.Name)]);
        }

        return planner.Result();
    }

    private bool IsIn(int zone, TrackPlace place) => _map.ZoneOf(_map.SpotAt(place).Index) == zone;

    private void PlanZone(int zone, IReadOnlyList<string> reversing)
    {
        string[] built = [.. _builtIn[zone].Distinct().Order(StringComparer.Ordinal)];
        double metres = _map.SpotsIn(zone).Where(spot => spot.IsPlain).Sum(spot => spot.LengthMetres);
        if (reversing.Count > 0 && built is [var only] && Reverses(only))
        {
            // A reversing section that is wired and lacked a gap.
            Whole(zone, new(only, metres, []) { IsBuilt = true, IsReversing = true });
        }
        else if (reversing.Count > 0)
        {
            if (built.Length > 0)
            {
                _remains.Add($"Feeders of '{string.Join("' and '", built)}' lie in reversing section '{reversing[0]}': move them to its device.");
            }

            NotParted(zone, $"reversing section '{reversing[0]}', which is a district as a whole");
            Whole(zone, new(reversing[0], metres, []) { IsReversing = true });
        }
        else if (built.Length > 1 || (built.Length == 1 && BuiltCarries(built[0], metres) && !Wishes(zone).Any() && !IsToBeParted(zone)))
        {
            NotParted(zone, $"track that is fed from '{string.Join("' and '", built)}' already");
            Whole(zone, new(built[0], metres, []) { IsBuilt = true, IsReversing = Reverses(built[0]) });
        }
        else if (metres > 0)
        {
            Divide(zone, metres, built.FirstOrDefault());
        }
    }

    private void Whole(int zone, PlannedDistrict district) =>
        Keep(district with { Landmarks = [.. _map.SpotsIn(zone).Where(spot => spot.Ends.Length > 0 || spot.IsPlain).Select(Landmark)] });

    /// <summary>Says which wishes are not met because their track cannot be parted from what it lies in.</summary>
    private void NotParted(int zone, string within)
    {
        foreach (DistrictWish wish in Wishes(zone))
        {
            HashSet<PieceId> others = [.. _map.SpotsIn(zone).Where(spot => spot.IsPlain).Select(spot => spot.Piece).Except(wish.Pieces)];
            if (others.Count > 0)
            {
                _remains.Add($"District '{wish.Name}' is not made: '{wish.Pieces.First(piece => _map.SpotsOf(piece).Any(spot => _map.ZoneOf(spot.Index) == zone))}' lies in {within}.{ToUndo(wish)}");
            }
        }
    }

    /// <summary>What is built and would have to be undone for a wish, as a sentence; empty where nothing is.</summary>
    private string ToUndo(DistrictWish wish)
    {
        string[] feeders = [.. _layout.Wiring.Feeders.Where(feeder => wish.Pieces.Contains(feeder.At.Section)).Select(feeder => $"'{feeder.Name}'")];
        return feeders.Length == 0 ? "" : $" It would take gaps around it and the feeders {string.Join(", ", feeders)} moved to it.";
    }

    /// <summary>Whether a feeder that is built may come to lie in a district that is asked for.</summary>
    private bool MayMove(Feeder feeder) => _rework
        && (_layout.DistrictsWanted.Any(wish => wish.Pieces.Contains(feeder.At.Section) && wish.Name != feeder.District)
            || _layout.Wishes.Apart.Any(wish => wish.Tracks.Skip(1).Any(track => track.Contains(feeder.At.Section))));

    private static TrackLandmark Landmark(TrackSpot spot) => spot.IsPlain
        ? new(null, new(spot.Piece, (spot.FromMetres + spot.ToMetres) / 2))
        : new(spot.Ends[0], null);

    /// <summary>Whether the breaker of a district that is there carries all of a zone.</summary>
    private bool BuiltCarries(string name, double metres) => metres <= CarriedMetres(name) + 1e-9;

    /// <summary>How much track the breaker of a district that is there carries.</summary>
    private double CarriedMetres(string name)
    {
        double amps = _layout.Wiring.Districts.First(district => district.Name == name).Trip.Amperes / Layouts.Reference.Constants.TripOverWorking.Value;
        return amps < _sizing.Load.Heaviest - 1e-9 ? 0 : amps / _sizing.Load.Total * _fedMetres;
    }

    private bool Reverses(string name) => _layout.Wiring.Districts.First(district => district.Name == name).Reversing;

    /// <summary>What is asked for in a zone and not wired yet.</summary>
    private IEnumerable<DistrictWish> Wishes(int zone)
    {
        HashSet<PieceId> pieces = [.. _map.SpotsIn(zone).Select(spot => spot.Piece)];
        return _layout.DistrictsWanted.Where(wish =>
            wish.Pieces.Any(pieces.Contains) && _layout.Wiring.Districts.All(district => district.Name != wish.Name));
    }

    /// <summary>Whether a zone holds two tracks that are to be kept apart.</summary>
    private bool IsToBeParted(int zone)
    {
        HashSet<PieceId> pieces = [.. _map.SpotsIn(zone).Select(spot => spot.Piece)];
        return _layout.Wishes.Apart.Any(wish => wish.Tracks.Count(track => track.Any(pieces.Contains)) > 1);
    }

    private void Divide(int zone, double metres, string? built)
    {
        List<NamedDistrict> named = [];
        if (built is not null)
        {
            TrackPlace[] feeders = [.. _layout.Wiring.Feeders.Where(feeder => IsIn(zone, feeder.At) && !MayMove(feeder)).Select(feeder => feeder.At)];
            named.Add(new(built, cell => feeders.Any(place => cell.Holds(place)), CarriedMetres(built)));
        }

        named.AddRange(Wishes(zone).Select(wish =>
            new NamedDistrict(wish.Name, cell => cell.Pieces.Any(wish.Pieces.Contains), null)));
        DivisionWishes wishes = new([.. named], NameOf, _layout.Wishes.Apart, _layout.Wishes.WayRound);
        DividedZone? divided = Solve(wishes) ?? (wishes.Apart.IsEmpty ? null : Solve(wishes with { Apart = [] }));
        if (divided is null && named.Count > 0)
        {
            _remains.Add($"The districts {string.Join(", ", named.Select(each => $"'{each.Name}'"))} cannot be parted from the rest: "
                + $"there is no place for gaps between them, or one piece is in two of them.{string.Concat(Wishes(zone).Select(ToUndo))}");
            named.Clear();
            divided = Solve(new([], _ => null, [], _layout.Wishes.WayRound));
        }

        if (divided is null && built is not null)
        {
            _remains.Add($"District '{built}' takes in all track joined to it, more than its breaker is set for: no gap can part the rest.");
            Whole(zone, new(built, metres, []) { IsBuilt = true, IsReversing = Reverses(built) });
            return;
        }

        Keep(zone, divided, named);

        DividedZone? Solve(DivisionWishes asked) => new ZoneDivision(_map, _boundaries, zone, metres, asked).Solve(
            _sizing.MostShare >= 1 ? double.PositiveInfinity : _sizing.MostShare * _fedMetres, Effort);
    }

    private string? NameOf(PieceId piece) =>
        _layout.DistrictsWanted.Where(wish => wish.Pieces.Contains(piece)).Select(wish => wish.Name).FirstOrDefault();

    private void Keep(int zone, DividedZone? divided, List<NamedDistrict> named)
    {
        if (divided is null)
        {
            double metres = _map.SpotsIn(zone).Where(spot => spot.IsPlain).Sum(spot => spot.LengthMetres);
            Whole(zone, new(FreeName(), metres, []));
            _fewestOrdinary++;
            return;
        }

        string[] names = new string[divided.Districts.Length];
        for (int i = 0; i < names.Length; i++)
        {
            bool isNamed = i < named.Count;
            names[i] = isNamed ? named[i].Name : FreeName();
            TrackCell[] cells = [.. divided.Districts[i]];
            _moved.AddRange(_layout.Wiring.Feeders
                .Where(feeder => MayMove(feeder) && feeder.District != names[i] && cells.Any(cell => cell.Holds(feeder.At)))
                .Select(feeder => (feeder.Name, names[i])));
            Keep(new(names[i], cells.Sum(cell => cell.LengthMetres), [.. cells.SelectMany(cell => cell.Landmarks)])
            {
                IsBuilt = isNamed && named[i].BuiltMetres is not null,
                IsWish = isNamed && named[i].BuiltMetres is null,
                IsReversing = isNamed && named[i].BuiltMetres is not null && Reverses(named[i].Name),
                CutOffMetres = divided.CutOffMetres.IsEmpty ? null : divided.CutOffMetres[i],
            });
        }

        _borders.AddRange(divided.Borders.Select(border => new DistrictBorder(border.At, names[border.One], names[border.Other])));
        (_cost, _bound, _fewestOrdinary) = (_cost + divided.Cost, _bound + divided.Bound, _fewestOrdinary + divided.FewestOrdinary);
    }

    /// <summary>Adds a district, or the track of another zone to a district known by that name.</summary>
    private void Keep(PlannedDistrict district)
    {
        int known = _districts.FindIndex(each => each.Name == district.Name);
        if (known < 0)
        {
            _districts.Add(district);
            return;
        }

        PlannedDistrict first = _districts[known];
        _districts[known] = first with
        {
            LengthMetres = first.LengthMetres + district.LengthMetres,
            Landmarks = [.. first.Landmarks, .. district.Landmarks],
        };
    }

    private string FreeName()
    {
        HashSet<string> taken = [.. _layout.Wiring.Districts.Select(each => each.Name), .. _districts.Select(each => each.Name), .. _layout.DistrictsWanted.Select(wish => wish.Name)];
        return Enumerable.Range(1, int.MaxValue - 1).Select(number => string.Create(CultureInfo.InvariantCulture, $"d{number}")).First(name => !taken.Contains(name));
    }

    private DistrictPlan Result()
    {
        int added = _districts.Count(district => !district.IsBuilt);
        int fewest = _districts.Count(district => !district.IsBuilt && (district.IsReversing || district.IsWish)) + _fewestOrdinary;
        DistrictPlan plan = new([.. _districts], [.. _borders])
        {
            Objectives = [new("districts", added, Math.Min(added, fewest)), new("district-boundaries", Math.Round(_cost, 3), Math.Round(Math.Min(_cost, _bound), 3))],
            FeedersToMove = [.. _moved],
            Remains = [.. _remains],
        };
        return _layout.Wishes.Apart.IsEmpty ? plan : plan with { Remains = [.. plan.Remains, .. NotApart(plan)] };
    }

    /// <summary>Tracks that were to be kept apart and share a district all the same.</summary>
    private IEnumerable<string> NotApart(DistrictPlan plan)
    {
        DistrictMap map = DistrictMap.Of(
            _layout with { Wiring = _layout.Wiring with { Gaps = [.. _layout.Wiring.Gaps, .. plan.Gaps(_layout.Control)] } }, plan.Districts);
        return from wish in _layout.Wishes.Apart
               from first in Enumerable.Range(0, wish.Tracks.Length)
               from second in Enumerable.Range(first + 1, wish.Tracks.Length - first - 1)
               from shared in wish.Tracks[first].SelectMany(map.NamesOf).Intersect(wish.Tracks[second].SelectMany(map.NamesOf)).Take(1)
               let why = plan.Districts.Any(district => district.Name == shared && district.IsBuilt)
                   ? "it is wired already: cut a gap between them, and move the feeders of one to another district"
                   : "there is no place for gaps between them"
               select $"'{wish.Tracks[first][0]}' and '{wish.Tracks[second][0]}' are to be kept apart, but district '{shared}' holds both; {why}.";
    }
}
