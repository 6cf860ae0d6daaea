using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>
/// The engine against somebody who tries every position and walks every rail, on thousands of small random layouts with every kind of
/// trackwork: nothing missed, nothing invented, no position too many.
/// </summary>
public sealed class EveryKindOracleTests
{
    private const int Layouts = 3000;

    private static readonly ImmutableArray<Case> Cases = [.. Enumerable.Range(1, Layouts).Select(Look)];

    private static Case Look(int seed)
    {
        Layout layout = RandomTrackwork.Of(seed);
        PolarityReport report = Polarity.Analyse(RailGraph.Build(layout), cancellationToken: TestContext.Current.CancellationToken);
        WalkOracle oracle = new(layout);
        return new(seed, layout, report, oracle, [.. oracle.AllStands()]);
    }

    [Fact]
    public void Legs_at_every_rail_are_those_that_walking_brings_there()
    {
        foreach (Case each in Cases)
        {
            int step = Math.Max(1, each.Stands.Length / 25);
            foreach (Dictionary<PieceId, string> stand in each.Stands.Where((_, i) => i % step == 0))
            {
                WalkOracle.Walk walk = each.Oracle.In(stand);
                var legs = Polarity.LegsIn(each.Report.Graph, stand);
                foreach ((int node, string rail) in each.Rails())
                {
                    Assert.True(walk.Legs(rail).SetEquals(legs[node]), $"{each} {rail} in {Say(stand)}: {string.Join('+', legs[node])} walked {string.Join('+', walk.Legs(rail))}");
                }
            }
        }
    }

    [Fact]
    public void Every_short_is_reported_and_those_that_stand_always_as_standing()
    {
        int shorted = 0, always = 0;
        foreach (Case each in Cases)
        {
            Assert.Empty(each.Report.Undecided);
            if (each.ShortStands().FirstOrDefault() is not { } stand)
            {
                continue;
            }

            shorted++;
            Assert.True(each.StandsWrong || !each.Report.ByPosition.IsEmpty, $"{each}: short in {Say(stand)}");
            if (stand.Count == 0)
            {
                always++;
                Assert.True(each.StandsWrong, $"{each}: always short");
            }
        }

        Assert.InRange(shorted, Layouts / 10, Layouts * 9 / 10);
        Assert.True(always > Layouts / 20 && shorted - always > Layouts / 20, $"{always} of {shorted}");
    }

    [Fact]
    public void Where_nothing_stands_wrong_the_fewest_positions_that_short_are_reported()
    {
        int met = 0, several = 0;
        foreach (Case each in Cases.Where(each => !each.StandsWrong))
        {
            int? fewest = each.ShortStands().FirstOrDefault()?.Count;
            int? reported = each.Report.ByPosition.Where(meeting => meeting.Kind == MeetingKind.Short).Min(meeting => (int?)meeting.Turnouts.Count);
            met += fewest is null ? 0 : 1;
            several += fewest > 1 ? 1 : 0;
            Assert.True(fewest == reported, $"{each}: fewest {fewest}, reported {reported}; {Say(each.ShortStands().FirstOrDefault())}");
        }

        Assert.True(met > Layouts / 50 && several > Layouts / 500, $"{met} {several}");
    }

    [Fact]
    public void Every_meeting_reported_can_be_walked_and_by_position_with_none_of_its_positions_left_out()
    {
        int standing = 0, byPosition = 0;
        foreach (Case each in Cases)
        {
            WalkOracle.Walk still = each.Oracle.In(new Dictionary<PieceId, string>());
            foreach (RailMeeting meeting in each.Report.Standing.Concat(each.Report.Exchanged.Select(pair => pair.Short).OfType<RailMeeting>()))
            {
                standing++;
                Assert.True(still.Meets(meeting.From.ToString(), meeting.To.ToString()), $"{each}: {meeting.From} {meeting.To}");
            }

            foreach (RailMeeting meeting in each.Report.ByPosition)
            {
                byPosition++;
                bool Meet(ImmutableSortedDictionary<PieceId, string> stand) => each.Oracle.In(stand).Meets(meeting.From.ToString(), meeting.To.ToString());
                Assert.True(Meet(meeting.Turnouts), $"{each}: {meeting.From} {meeting.To} in {Say(meeting.Turnouts)}");
                Assert.All(each.StandsWrong ? [] : meeting.Turnouts.Keys, owner =>
                    Assert.False(Meet(meeting.Turnouts.Remove(owner)), $"{each}: {meeting.From} {meeting.To} without {owner}"));
            }
        }

        Assert.True(standing > Layouts / 15 && byPosition > Layouts / 10, $"{standing} {byPosition}");
    }

    [Fact]
    public void Paths_of_loops_and_frogs_can_be_walked()
    {
        int walked = 0;
        foreach (Case each in Cases)
        {
            WalkOracle.Walk still = each.Oracle.In(new Dictionary<PieceId, string>());
            foreach (ImmutableArray<RailPoint> path in each.Report.OddLoops.Select(loop => loop.Path).Concat(each.Report.FrogFaults.Select(fault => fault.Path)))
            {
                if (!path.IsEmpty)
                {
                    walked++;
                    Assert.True(still.Meets(each.NameOf(path[0]), each.NameOf(path[^1])), $"{each}: {path[0]} {path[^1]}");
                }
            }
        }

        Assert.True(walked > Layouts / 20, $"{walked}");
    }

    [Fact]
    public void Rails_without_feed_are_those_that_no_walk_from_a_wire_reaches_in_any_position()
    {
        int dry = 0;
        foreach (Case each in Cases)
        {
            HashSet<string> wet = [];
            List<(string Rail, PieceId Section, RailSide Side, double Metres)> places = [.. each.MiddlesOfRails()];
            foreach (WalkOracle.Walk walk in each.StillStands.Select(each.Oracle.In))
            {
                wet.UnionWith(places.Select(place => place.Rail).Where(rail => !wet.Contains(rail) && walk.IsFed(rail)));
            }

            foreach ((string rail, PieceId section, RailSide side, double metres) in places)
            {
                bool reported = each.Report.Unfed.Any(unfed => unfed.Section == section && unfed.Side == side && unfed.FromMetres < metres && unfed.ToMetres > metres);
                dry += reported ? 1 : 0;
                Assert.True(reported != wet.Contains(rail), $"{each}: {rail} at {metres} m");
            }
        }

        Assert.True(dry > Layouts / 5, $"{dry}");
    }

    [Fact]
    public void Track_with_current_in_some_positions_only_is_told_with_the_fewest_positions_that_bring_it()
    {
        int switched = 0, several = 0, never = 0;
        foreach (Case each in Cases)
        {
            foreach (Case.Place place in each.Places().Where(place => place.IsSwitched))
            {
                Assert.True(place.Told is not null, $"{each}: {place.Left} is switched");
                Dictionary<PieceId, string>? fewest = each.StillStands.FirstOrDefault(stand => each.Oracle.In(stand).IsLive(place.Left, place.Right));
                switched++;
                several += fewest?.Count > 1 ? 1 : 0;
                never += fewest is null ? 1 : 0;
                string what = $"{each}: {place.Left} in {Say(place.Told!.LiveWhen)}, but {Say(fewest)}";
                Assert.True(fewest is null || place.Told.LiveWhen.Count is var told && told > 0 && told <= fewest.Count, what);
                Assert.True(place.Told.LiveWhen.IsEmpty || each.Oracle.In(place.Told.LiveWhen).HasBothLegs(place.Left, place.Right), what);
                Assert.All(fewest is null ? [] : place.Told.LiveWhen.Keys, owner =>
                    Assert.False(each.Oracle.In(place.Told.LiveWhen.Remove(owner)).HasBothLegs(place.Left, place.Right), what));
            }

            Assert.All(each.Places().Where(place => !place.IsSwitched), place => Assert.True(place.Told is null, $"{each}: {place.Left} is not switched"));
        }

        Assert.True(switched > Layouts / 3 && several > Layouts / 100 && never > Layouts / 100, $"{switched} {several} {never}");
    }

    private static string Say(IReadOnlyDictionary<PieceId, string>? stand) =>
        stand is null ? "" : string.Join(' ', stand.OrderBy(pair => pair.Key).Select(pair => $"{pair.Key}={pair.Value}"));

    /// <summary>A layout, what the engine says of it, and somebody to try it out.</summary>
    private sealed record Case(int Seed, Layout Layout, PolarityReport Report, WalkOracle Oracle, ImmutableArray<Dictionary<PieceId, string>> Stands)
    {
        private ImmutableArray<Dictionary<PieceId, string>>? _short;

        /// <summary>Whether something is wrong whatever the positions, which other faults may hide behind.</summary>
        public bool StandsWrong => Report.FoilFaults.Length + Report.OddLoops.Length + Report.Exchanged.Length + Report.FrogFaults.Length + Report.Standing.Length > 0;

        /// <summary>The stands in which nothing moves: a rail that has current in mid-throw only does not count as fed.</summary>
        public IEnumerable<Dictionary<PieceId, string>> StillStands => Stands.Where(stand => !stand.Values.Any(Moment.Is));

        public ImmutableArray<Dictionary<PieceId, string>> ShortStands() => _short ??= [.. Stands.Where(stand => Oracle.In(stand).IsShort()).Take(1)];

        /// <summary>Every rail at an end and every place within a section or bridge, as node and in the oracle's name.</summary>
        public IEnumerable<(int Node, string Rail)> Rails()
        {
            (RailSide first, RailSide second) = RailSides.Of(Layout.Control);
            foreach (TrackEnd end in Layout.Track.SelectMany(piece => piece.Ends))
            {
                yield return (Report.Graph.NodeAt(new(end, first)), Oracle.RailAt(end, first));
                yield return (Report.Graph.NodeAt(new(end, second)), Oracle.RailAt(end, second));
            }

            foreach (Piece piece in Layout.Track.Where(piece => piece.PlacesMetres is not null))
            {
                foreach (Station station in Report.Graph.Stations(piece.Id))
                {
                    yield return (station.FirstTowardsB, Oracle.RailWithin(piece.Id, station.Metres, first: true));
                    yield return (station.SecondTowardsB, Oracle.RailWithin(piece.Id, station.Metres, first: false));
                }
            }

            foreach ((PieceId piece, string name, string own) in Frogs())
            {
                if (Report.Graph.NodeInside(piece, name) is { } node)
                {
                    yield return (node, $"{piece}:{own}");
                }
            }
        }

        public string NameOf(RailPoint point) => point switch
        {
            RailPoint.AtEnd at => Oracle.RailAt(at.Rail.End, at.Rail.Side),
            _ => throw new InvalidOperationException($"a path that ends at {point}"),
        };

        public IEnumerable<(string Rail, PieceId Section, RailSide Side, double Metres)> MiddlesOfRails()
        {
            (RailSide first, RailSide second) = RailSides.Of(Layout.Control);
            return from section in Layout.Track.OfType<Piece.Section>()
                   from metres in s_middles
                   from side in new[] { first, second }
                   select (Oracle.RailWithin(section.Id, metres, side == first), section.Id, side, metres);
        }

        private static readonly (string Engine, string Own)[] s_inner =
        [
            ("frog", "F"), ("frog-west", "W"), ("frog-east", "E"), ("frog-left", "KN"), ("frog-right", "KS"),
            ("frog-a-west", "Fnw"), ("frog-a-east", "Fne"), ("frog-b-west", "Fsw"), ("frog-b-east", "Fse"),
            ("frog-1-2", "F12"), ("frog-2-3", "F23"), ("frog-1-3", "F13"), ("frog-3-4", "F34"), ("frog-1-4", "F14"), ("frog-2-4", "F24"),
        ];

        private IEnumerable<(PieceId, string, string)> Frogs() =>
            from piece in Layout.Track
            from inner in s_inner
            select (piece.Id, inner.Engine, inner.Own);

        /// <summary>Places of sections, three to each, and whether their current depends on positions: found by walking, and as told.</summary>
        public ImmutableArray<Place> Places() => _places ??= [.. FindPlaces()];

        private ImmutableArray<Place>? _places;

        private IEnumerable<Place> FindPlaces()
        {
            HashSet<string> wet = [];
            string[] rails = [.. MiddlesOfRails().Select(place => place.Rail).Distinct()];
            foreach (WalkOracle.Walk walk in StillStands.Select(Oracle.In))
            {
                wet.UnionWith(rails.Where(rail => !wet.Contains(rail) && walk.IsFed(rail)));
            }

            WalkOracle.Walk still = Oracle.In(new Dictionary<PieceId, string>());
            foreach (Piece.Section section in Layout.Track.OfType<Piece.Section>())
            {
                foreach (double metres in s_middles)
                {
                    string left = Oracle.RailWithin(section.Id, metres, first: true), right = Oracle.RailWithin(section.Id, metres, first: false);
                    yield return new(
                        left,
                        right,
                        wet.Contains(left) && wet.Contains(right) && !(still.IsFed(left) && still.IsFed(right)),
                        Report.Switched.FirstOrDefault(track => track.Section == section.Id && track.FromMetres < metres && track.ToMetres > metres));
                }
            }
        }

        private static readonly double[] s_middles = [0.25, 0.75, 1.5];

        /// <summary>A place by its rails, whether positions decide about its current, and what the engine says of it.</summary>
        public sealed record Place(string Left, string Right, bool IsSwitched, SwitchedTrack? Told);

        public override string ToString() => $"seed {Seed} ({string.Join(", ", Layout.Track.Where(piece => piece is not Piece.Section).Select(piece => piece.GetType().Name))})";
    }
}
