using System.Globalization;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>
/// Small layouts from a seed, with every kind of trackwork. Some are laid out so that left and right agree everywhere and most frogs have
/// their gaps, so that there is something to find besides standing shorts; others join anything to anything.
/// </summary>
internal static class RandomTrackwork
{
    public const double GapMetres = 0.5, FeedMetres = 1;

    private const int Kinds = 8;

    public static Layout Of(int seed) => new Maker(new Random(seed), seed).Make();

    private sealed class Maker(Random random, int seed)
    {
        private readonly PlanBuilder _plan = new() { Control = seed % 12 == 0 ? ControlSystem.ThreeRail : ControlSystem.Command };
        private readonly List<Piece> _pieces = [];
        private readonly bool _agrees = seed % 3 != 0;
        private readonly List<string> _owners = [];

        public Layout Make()
        {
            int trackwork = random.Next(1, 4), sections = random.Next(2, 6);
            Enumerable.Range(1, trackwork).ToList().ForEach(i => Add(Trackwork($"X{i}", i == 1 ? seed % Kinds : random.Next(Kinds))));
            Enumerable.Range(1, sections).ToList().ForEach(i => Add(new Piece.Section(new($"s{i}"), Length.FromMeters(2)) { LiftOut = i is 1 or 3 && Chance(6) }));
            if (Chance(4))
            {
                _plan.Switch("B1", "on off");
                _owners.AddRange(["B1.on", "B1.off"]);
            }

            Join();
            foreach (Piece.Section section in _pieces.OfType<Piece.Section>().Where(_ => Chance(5)))
            {
                _plan.Gap($"{section.Id}@{GapMetres}", Rails(), When(4));
            }

            Feed();
            return _plan.Build();
        }

        private bool Chance(int oneIn) => random.Next(oneIn) == 0;

        private T Any<T>() where T : struct, Enum => Enum.GetValues<T>()[random.Next(Enum.GetValues<T>().Length)];

        private RailSet Rails() => (RailSet)random.Next(1, 4);

        private string? When(int oneIn) => _owners.Count > 0 && Chance(oneIn) ? _owners[random.Next(_owners.Count)] : null;

        private void Add(Piece piece)
        {
            _pieces.Add(piece);
            _plan.Piece(piece);
            _owners.AddRange(ToeFrame.PositionsOf(piece).Where(position => !position.Contains('>')).Select(position => $"{piece.Id}.{position}"));
        }

        private Piece Trackwork(string name, int kind)
        {
            PieceId id = new(name);
            FrogKind frog = Chance(2) ? FrogKind.Live : Any<FrogKind>();
            FrogFeed feed = Any<FrogFeed>();
            return kind switch
            {
                0 or 1 => new Piece.Turnout(id, Any<TurnoutHand>(), frog)
                {
                    Feed = feed,
                    Stub = Chance(6),
                    PowerRouting = Chance(2),
                    HeelInFrog = Chance(2),
                    EarlyContact = Chance(4),
                    CopperClad = Chance(4),
                    Uncut = Chance(2) ? (TieZones)random.Next(32) : TieZones.None,
                },
                2 => new Piece.MultiTurnout(id, random.Next(3, 5), frog) { Feed = feed, PowerRouting = Chance(2) },
                3 => new Piece.Crossing(id, Angle.FromDegrees(30), frog) { Feed = feed, OppositePhase = Chance(2) },
                4 => new Piece.Slip(id, Chance(2), frog) { Feed = feed, Drive = Any<SlipDrive>() },
                5 => new Piece.Scissors(id, frog) { Feed = feed },
                6 => new Piece.Turntable(id, random.Next(2, 6), Length.FromMeters(0.3)) { Feed = Any<BridgeFeed>(), SplitAfter = random.Next(1, 3) },
                _ => new Piece.TransferTable(id, random.Next(1, 4), Length.FromMeters(0.3)) { Feed = Chance(2) ? BridgeFeed.Wires : BridgeFeed.Roads },
            };
        }

        /// <summary>Joins ends at random; where left and right are to agree, toes to heels only.</summary>
        private void Join()
        {
            List<(Piece Piece, string End)> ends = [.. _pieces.SelectMany(piece => piece.EndNames.Select(end => (piece, end)))];
            (Piece Piece, string End)[] ones = [.. ends.Where(end => !_agrees || IsToe(end.Piece, end.End))], others = [.. ends.Except(ones)];
            random.Shuffle(ones);
            random.Shuffle(others);
            if (!_agrees)
            {
                (ones, others) = (ones[..(ones.Length / 2)], ones[(ones.Length / 2)..]);
            }

            int joints = Math.Max(1, Math.Min(ones.Length, others.Length) - random.Next(3));
            foreach (((Piece Piece, string End) one, (Piece Piece, string End) other) in ones.Zip(others).Take(joints))
            {
                _plan.Chain($"{one.Piece.Id}.{one.End} > {other.Piece.Id}.{other.End}");
                Cut(one.Piece, one.End);
                Cut(other.Piece, other.End);
            }
        }

        /// <summary>A live crossing of opposite phase agrees with what lies round it where its track b is laid the other way.</summary>
        private static bool IsToe(Piece piece, string end) =>
            ToeFrame.IsToe(piece, end) != (piece is Piece.Crossing { OppositePhase: true } && end.StartsWith('b'));

        /// <summary>The gap that a live frog asks for, mostly, and now and then any other.</summary>
        private void Cut(Piece piece, string end)
        {
            if (Needed(piece, end) is { } rails && random.Next(6) > 0)
            {
                _plan.Gap($"{piece.Id}.{end}", rails);
            }
            else if (Chance(8))
            {
                _plan.Gap($"{piece.Id}.{end}", Rails(), When(2));
            }
        }

        private static RailSet? Needed(Piece piece, string end) => piece switch
        {
            Piece.Turnout { Frog: not FrogKind.Insulated } turnout => end == turnout.LeftLeg ? RailSet.Right : end == turnout.RightLeg ? RailSet.Left : null,
            Piece.MultiTurnout { Frog: FrogKind.Live } turnout => end == "points" ? null
                : end == turnout.EndNames[1] ? RailSet.Right : end == turnout.EndNames[^1] ? RailSet.Left : RailSet.Both,
            Piece.Crossing { Frog: FrogKind.Live, OppositePhase: true } => end is "a1" or "b2" ? (end == "a1" ? RailSet.Right : RailSet.Left) : end == "b1" ? RailSet.Left : RailSet.Right,
            Piece.Crossing { Frog: FrogKind.Live } or Piece.Slip { Frog: FrogKind.Live } => end is "a1" or "a2" ? RailSet.Left : RailSet.Right,
            _ => null,
        };

        private void Feed()
        {
            string metres = FeedMetres.ToString(CultureInfo.InvariantCulture);
            bool second = Chance(6);
            foreach (Piece piece in _pieces.Where(piece => piece.PlacesMetres is not null && random.Next(5) > 1))
            {
                string at = piece is Piece.Section ? metres : "0.1";
                string when = When(6) is { } setting ? $"?{setting}" : "";
                _plan.Feed(second && Chance(3) ? "e" : "d", $"{piece.Id}@{at}{(Chance(_agrees ? 14 : 4) ? "!" : "")}{when}");
            }
        }
    }
}
