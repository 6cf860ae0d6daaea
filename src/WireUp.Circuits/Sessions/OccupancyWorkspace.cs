namespace WireUp.Circuits.Sessions;

/// <summary>Who has which track while a session runs.</summary>
internal sealed class OccupancyWorkspace
{
    private const int Free = -1;

    private readonly SessionTrack _track;
    private readonly List<(int Junction, int Line)>[] _meets;
    private readonly int[] _owner, _inward, _parked, _claimed, _seen;
    private readonly Queue<int> _open = new();
    private int _search;

    internal OccupancyWorkspace(SessionTrack track)
    {
        _track = track;
        _owner = new int[track.CellCount];
        Array.Fill(_owner, Free);
        _inward = new int[track.Stretches.Length];
        _parked = new int[track.Stretches.Length / 2];
        _claimed = new int[track.Stretches.Length / 2];
        _seen = new int[track.JunctionCount];
        _meets = [.. Enumerable.Range(0, track.JunctionCount).Select(_ => new List<(int, int)>())];
        foreach (int line in track.Lines)
        {
            TrackStretch stretch = track.Stretches[line];
            _meets[stretch.From].Add((stretch.To, line / 2));
            _meets[stretch.To].Add((stretch.From, line / 2));
        }
    }

    /// <summary>The train on the cell of a leg, or −1.</summary>
    internal int OwnerOf(int leg) => _owner[_track.Legs[leg].Cell];

    internal bool IsFree(int leg) => OwnerOf(leg) == Free;

    internal void Take(int leg, int train) => _owner[_track.Legs[leg].Cell] = train;

    internal void GiveBack(int leg) => _owner[_track.Legs[leg].Cell] = Free;

    /// <summary>Counts a train that heads along a stretch; −1 takes it out again.</summary>
    internal void Heads(int stretch, int count) => _inward[stretch] += count;

    /// <summary>Whether any train heads along a stretch the other way, moving or not.</summary>
    internal bool IsOpposed(int stretch) => _inward[stretch ^ 1] > 0;

    /// <summary>Counts a train that stands on a stretch, whichever way.</summary>
    internal void Parks(int stretch, int count) => _parked[stretch / 2] += count;

    internal bool HasParked(int stretch) => _parked[stretch / 2] > 0;

    /// <summary>Counts a trip that ends on a stretch, whichever way.</summary>
    internal void Claims(int stretch, int count) => _claimed[stretch / 2] += count;

    internal bool IsClaimed(int stretch) => _claimed[stretch / 2] > 0;

    /// <summary>Length from the start of a stretch to the first train on it, metres; no farther than what is asked for.</summary>
    internal double Room(int stretch, double wanted)
    {
        double metres = 0;
        foreach (int leg in _track.Stretches[stretch].Legs)
        {
            if (metres >= wanted || !IsFree(leg))
            {
                break;
            }

            metres += _track.Legs[leg].Metres;
        }

        return metres;
    }

    /// <summary>
    /// Whether the two ends of a line stay joined by other lines when a train stands on it, along with those that stand or will stand
    /// somewhere now. A dead end and a loop back to the same junction always do.
    /// </summary>
    internal bool KeepsOpen(int line)
    {
        TrackStretch stretch = _track.Stretches[line];
        if (stretch.From == stretch.To || stretch.Next.IsEmpty || _track.Stretches[line ^ 1].Next.IsEmpty)
        {
            return true;
        }

        _search++;
        _open.Clear();
        Reach(stretch.From);
        while (_open.TryDequeue(out int junction))
        {
            if (junction == stretch.To)
            {
                return true;
            }

            foreach ((int next, int pair) in _meets[junction])
            {
                if (pair != line / 2 && _parked[pair] == 0 && _claimed[pair] == 0)
                {
                    Reach(next);
                }
            }
        }

        return false;
    }

    private void Reach(int junction)
    {
        if (_seen[junction] != _search)
        {
            _seen[junction] = _search;
            _open.Enqueue(junction);
        }
    }
}
