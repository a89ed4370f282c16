// SPDX-License-Identifier: Apache-2.0
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Heatwright.Journal.Store.Sqlite;

/// <summary>
/// The hook that puts and holds page seals: a copy of the library's own file layer under another name. It opens files as the
/// original does; for the main database file it exchanges four entries of the table of methods (read, write, fetch of mapped memory,
/// device properties) and leaves locks, shared memory and everything else to the original. The two tables are stable interface
/// (sqlite3_vfs and sqlite3_io_methods, https://sqlite.org/c3ref/vfs.html, https://sqlite.org/c3ref/io_methods.html).
/// </summary>
internal static unsafe partial class PageSealVfs
{
    /// <summary>Name to connect with.</summary>
    public const string Name = "heatwright";

    private const string Library = "e_sqlite3";
    private const int MainDatabase = 0x100; // SQLITE_OPEN_MAIN_DB
    private const int SubpageRead = 0x8000; // SQLITE_IOCAP_SUBPAGE_READ
    private const int HeaderLength = 100;

    // Slots of sqlite3_io_methods, in pointers from its start (the version number fills the first).
    private const int Read = 2;
    private const int Write = 3;
    private const int DeviceCharacteristics = 12;
    private const int Fetch = 17;
    private const int Unfetch = 18;
    private const int OriginalTable = 19; // ours: where the original table is

    private static readonly Lock Gate = new();
    private static readonly Dictionary<nint, nint> Tables = [];
    private static nint _original;
    private static int _stateOffset;

    /// <summary>Makes the layer known to the library; does nothing when it is already.</summary>
    /// <exception cref="JournalException">The library is of a make that this cannot hook into.</exception>
    public static void Register()
    {
        lock (Gate)
        {
            if (_original != 0)
            {
                return;
            }

            var original = (Vfs*)Find(null);
            if (original is null || original->Version is < 1 or > 3)
            {
                throw new JournalException(JournalProblem.Failed, "The database library has no file layer of a known version; journals in files cannot be used.");
            }

            // Never freed: the library keeps pointers to it as long as the process lives.
            var copy = (Vfs*)NativeMemory.AllocZeroed((nuint)sizeof(Vfs));
            int known = original->Version == 1 ? Vfs.LengthOf1 : original->Version == 2 ? Vfs.LengthOf1 + sizeof(nint) : sizeof(Vfs);
            Buffer.MemoryCopy(original, copy, sizeof(Vfs), known);
            _stateOffset = (original->FileLength + 7) & ~7;
            copy->FileLength = _stateOffset + sizeof(FileState);
            copy->Next = 0;
            copy->Name = Marshal.StringToCoTaskMemUTF8(Name);
            copy->Open = (nint)(delegate* unmanaged[Cdecl]<Vfs*, byte*, nint*, int, int*, int>)&OpenFile;
            int answer = RegisterVfs(copy, 0);
            if (answer != 0)
            {
                throw new JournalException(JournalProblem.Failed, $"The database library refuses the page seals (code {answer}).");
            }

            _original = (nint)original;
        }
    }

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static int OpenFile(Vfs* vfs, byte* name, nint* file, int flags, int* flagsOut)
    {
        var original = (Vfs*)_original;
        int answer = ((delegate* unmanaged[Cdecl]<Vfs*, byte*, nint*, int, int*, int>)original->Open)(original, name, file, flags, flagsOut);
        if (*file != 0 && (flags & MainDatabase) != 0)
        {
            *State(file) = default;
            *file = TableFor(*file);
        }

        return answer;
    }

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static int ReadPage(nint* file, byte* to, int length, long offset)
    {
        int answer = OriginalRead(file, to, length, offset);
        if (answer != 0)
        {
            return answer;
        }

        if (offset == 0 && length >= HeaderLength)
        {
            State(file)->Learn(to);
        }

        if (State(file)->IsPage(length, offset) && !PageSeal.Holds(new ReadOnlySpan<byte>(to, length), (offset / length) + 1))
        {
            PageSeal.NoteDamage((offset / length) + 1);
            return PageSeal.DamagedPageCode;
        }

        return answer;
    }

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static int WritePage(nint* file, byte* from, int length, long offset)
    {
        FileState* state = State(file);
        if (offset == 0 && length >= HeaderLength)
        {
            state->Learn(from);
        }
        else if (state->Known == 0)
        {
            byte* header = stackalloc byte[HeaderLength];
            if (OriginalRead(file, header, HeaderLength, 0) == 0)
            {
                state->Learn(header);
            }
        }

        // The bytes are the library's own copy of the page and the seal lies outside what it uses, so it may be put in place.
        if (state->IsPage(length, offset))
        {
            PageSeal.Put(new Span<byte>(from, length), (offset / length) + 1);
        }

        return ((delegate* unmanaged[Cdecl]<nint*, byte*, int, long, int>)Original(file)[Write])(file, from, length, offset);
    }

    /// <summary>Mapped memory would be read past the seals: there is none.</summary>
    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static int FetchNothing(nint* file, long offset, int length, nint* memory)
    {
        *memory = 0;
        return 0;
    }

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static int UnfetchNothing(nint* file, long offset, nint memory) => 0;

    /// <summary>Parts of pages would be read past the seals: the library is told to read whole ones.</summary>
    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static int Properties(nint* file) =>
        ((delegate* unmanaged[Cdecl]<nint*, int>)Original(file)[DeviceCharacteristics])(file) & ~SubpageRead;

    private static int OriginalRead(nint* file, byte* to, int length, long offset) =>
        ((delegate* unmanaged[Cdecl]<nint*, byte*, int, long, int>)Original(file)[Read])(file, to, length, offset);

    private static nint* Original(nint* file) => (nint*)((nint*)*file)[OriginalTable];

    private static FileState* State(nint* file) => (FileState*)((byte*)file + _stateOffset);

    private static nint TableFor(nint original)
    {
        lock (Gate)
        {
            if (Tables.TryGetValue(original, out nint known))
            {
                return known;
            }

            int version = *(int*)original;
            int pointers = version == 1 ? 13 : version == 2 ? 17 : OriginalTable;
            var table = (nint*)NativeMemory.AllocZeroed((nuint)((OriginalTable + 1) * sizeof(nint)));
            Buffer.MemoryCopy((void*)original, table, OriginalTable * sizeof(nint), pointers * sizeof(nint));
            *(int*)table = Math.Min(version, 3);
            table[Read] = (nint)(delegate* unmanaged[Cdecl]<nint*, byte*, int, long, int>)&ReadPage;
            table[Write] = (nint)(delegate* unmanaged[Cdecl]<nint*, byte*, int, long, int>)&WritePage;
            table[DeviceCharacteristics] = (nint)(delegate* unmanaged[Cdecl]<nint*, int>)&Properties;
            if (version >= 3)
            {
                table[Fetch] = (nint)(delegate* unmanaged[Cdecl]<nint*, long, int, nint*, int>)&FetchNothing;
                table[Unfetch] = (nint)(delegate* unmanaged[Cdecl]<nint*, long, nint, int>)&UnfetchNothing;
            }

            table[OriginalTable] = original;
            Tables[original] = (nint)table;
            return (nint)table;
        }
    }

    [LibraryImport(Library, EntryPoint = "sqlite3_vfs_find", StringMarshalling = StringMarshalling.Utf8)]
    [UnmanagedCallConv(CallConvs = [typeof(CallConvCdecl)])]
    private static partial void* Find(string? name);

    [LibraryImport(Library, EntryPoint = "sqlite3_vfs_register")]
    [UnmanagedCallConv(CallConvs = [typeof(CallConvCdecl)])]
    private static partial int RegisterVfs(Vfs* vfs, int asDefault);

    /// <summary>sqlite3_file_control.</summary>
    [LibraryImport(Library, EntryPoint = "sqlite3_file_control", StringMarshalling = StringMarshalling.Utf8)]
    [UnmanagedCallConv(CallConvs = [typeof(CallConvCdecl)])]
    internal static partial int FileControl(nint connection, string schema, int operation, void* argument);

    /// <summary>sqlite3_vfs, version 3.</summary>
    [StructLayout(LayoutKind.Sequential)]
    private struct Vfs
    {
        public int Version;
        public int FileLength;
        public int PathLength;
        public nint Next;
        public nint Name;
        public nint Data;
        public nint Open;
        public nint Delete;
        public nint Access;
        public nint FullPathname;
        public nint DlOpen;
        public nint DlError;
        public nint DlSym;
        public nint DlClose;
        public nint Randomness;
        public nint Sleep;
        public nint CurrentTime;
        public nint GetLastError;
        public nint CurrentTimeInt64;
        public nint SetSystemCall;
        public nint GetSystemCall;
        public nint NextSystemCall;

        public static int LengthOf1 => (int)Marshal.OffsetOf<Vfs>(nameof(CurrentTimeInt64));
    }

    /// <summary>What is known of an open file; it lies behind the original's own data of the file.</summary>
    private struct FileState
    {
        /// <summary>0 until a header was seen.</summary>
        public int Known;

        /// <summary>Page size of a file with seals; 0 without.</summary>
        public int PageSize;

        public void Learn(byte* header)
        {
            var bytes = new ReadOnlySpan<byte>(header, HeaderLength);
            if (bytes.StartsWith("SQLite format 3\0"u8))
            {
                Known = 1;

                // The byte that says so may be the damaged one: what bears a journal's mark is held against its seals.
                PageSize = PageSeal.Marked(bytes) ? PageSeal.PageSize(bytes) : PageSeal.SealedPageSize(bytes);
            }
        }

        public readonly bool IsPage(int length, long offset) => PageSize != 0 && length == PageSize && offset % length == 0;
    }
}
